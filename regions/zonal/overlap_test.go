package zonal_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/regions"
	"weekband/regions/zonal"
)

func block(west, south, east, north float64) orb.MultiPolygon {
	return orb.MultiPolygon{{{{west, south}, {east, south}, {east, north}, {west, north}, {west, south}}}}
}

// By hand: in squares of a degree, b has two of its four over a, c lies in b
// with all of its one, d meets a along a side and e is alone. A third region
// over ground that two have counts it once more.
func TestOverlaps(t *testing.T) {
	g := mustGrid(t, grid.Box{West: -60, South: 30, East: -40, North: 50}, 20, 20)
	var set regions.Set
	for _, shape := range []orb.MultiPolygon{
		block(-55, 40, -53, 42), block(-54, 40, -52, 42), block(-53, 41, -52, 42), block(-57, 40, -55, 42), block(-45, 35, -44.5, 36),
		block(-54, 41, -53, 42),
	} {
		set.Regions = append(set.Regions, regions.Region{Shape: shape, Bounds: regions.BoundsOf(shape)})
	}
	area := func(shape orb.MultiPolygon) float64 { return regions.Area(shape) }
	want := []zonal.Overlap{
		{Region: 1, Other: 0, AreaKm2: area(block(-54, 40, -53, 42))},
		{Region: 2, Other: 1, AreaKm2: area(block(-53, 41, -52, 42))},
		{Region: 5, Other: 0, AreaKm2: area(block(-54, 41, -53, 42))},
	}
	got := zonal.Overlaps(zonal.CoverAll(set, g))
	if len(got) != len(want) {
		t.Fatalf("got %+v, want %+v", got, want)
	}
	for i, w := range want {
		if got[i].Region != w.Region || got[i].Other != w.Other || math.Abs(got[i].AreaKm2-w.AreaKm2) > 1e-3 {
			t.Errorf("got %+v, want %+v", got[i], w)
		}
	}
	if none := zonal.Overlaps(nil); len(none) > 0 {
		t.Errorf("no regions overlap: %v", none)
	}
}

// Real counties lie side by side, but for slivers where thinning made borders
// cross.
func TestCountiesDoNotOverlap(t *testing.T) {
	set := us(t, "counties-10m.json", "counties")
	g := mustGrid(t, grid.Box{West: -125, South: 24, East: -66, North: 50}, 596, 1385)
	covers := zonal.CoverAll(set, g)
	for _, o := range zonal.Overlaps(covers) {
		if part := o.AreaKm2 / covers[o.Region].Area(); part > 0.01 {
			t.Errorf("%s lies %.1f %% over %s", set.Regions[o.Region].Name, 100*part, set.Regions[o.Other].Name)
		}
	}
}

func BenchmarkOverlapsOfCounties(b *testing.B) {
	set := us(b, "counties-10m.json", "counties")
	for _, size := range [][2]int{{596, 1385}, {3105, 7025}} {
		g := mustGrid(b, grid.Box{West: -125, South: 24, East: -66, North: 50}, size[0], size[1])
		covers := zonal.CoverAll(set, g)
		b.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(b *testing.B) {
			for b.Loop() {
				zonal.Overlaps(covers)
			}
			perCell(b, g.Cells(), len(covers))
		})
	}
}
