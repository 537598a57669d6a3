package regions_test

import (
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/regions"
)

func square(west, south, side float64) orb.Polygon {
	return orb.Polygon{{{west, south}, {west + side, south}, {west + side, south + side}, {west, south + side}, {west, south}}}
}

// Polygons in, out of and across a box, by hand.
func TestApart(t *testing.T) {
	set := regions.Set{Regions: []regions.Region{
		{ID: "main", Shape: orb.MultiPolygon{square(0, 0, 10), square(22, 2, 1)}},
		{ID: "isle", Shape: orb.MultiPolygon{square(25, 3, 2)}},
		{ID: "cut", Shape: orb.MultiPolygon{square(28, 4, 5), square(40, 4, 1)}},
		{ID: "corner", Shape: orb.MultiPolygon{{{{18, 8}, {19, 12}, {25, 14}, {18, 14}, {18, 8}}}}}, // its bounds meet the box, its ground does not
	}}
	box := grid.Box{West: 20, South: 0, East: 30, North: 10}
	far, near, held := set.Apart(box)
	count := func(s regions.Set) map[string]int {
		n := map[string]int{}
		for _, r := range s.Regions {
			n[r.ID] = len(r.Shape)
		}
		return n
	}
	if got := count(far); len(got) != 3 || got["main"] != 1 || got["isle"] != 1 || got["cut"] != 1 {
		t.Errorf("far: %v", got)
	}
	if got := count(near); len(got) != 3 || got["main"] != 1 || got["cut"] != 2 || got["corner"] != 1 {
		t.Errorf("near: %v", got)
	}
	if want := (grid.Box{West: 22, South: 2, East: 30, North: 9}); held != want {
		t.Errorf("the box holds ground in %v, want %v", held, want)
	}
	if b := set.Regions[2].Shape[0].Bound(); b.Max[0] != 33 {
		t.Error("a shape of the set was cut")
	}
	if far, near, held := set.Apart(grid.Box{West: 60, South: 0, East: 70, North: 10}); len(far.Regions) > 0 || len(near.Regions) != 4 || held != (grid.Box{}) {
		t.Errorf("a box off all regions holds %v", held)
	}
}
