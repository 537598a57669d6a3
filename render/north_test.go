package render_test

import (
	"math"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/render"
	"weekband/render/press"
)

// ringAround is land along a parallel, for maps of a polar cap.
func ringAround(west, east, south, north float64) orb.MultiPolygon {
	var ring orb.Ring
	for lon := west; lon <= east; lon += 2 {
		ring = append(ring, orb.Point{lon, south})
	}
	for lon := east; lon >= west; lon -= 2 {
		ring = append(ring, orb.Point{lon, north})
	}
	return orb.MultiPolygon{{append(ring, ring[0])}}
}

// Only maps on which north slants by more than twenty degrees have arrows.
func TestNorthOnlyWhereItHelps(t *testing.T) {
	count := func(terr render.Territory) (n int, p *render.Map) {
		p = must(must(render.NewAtlas(terr, 900)).Bands(render.BandMap{}))
		checkLayout(t, "north", p.Layout)
		for _, b := range p.Layout.Boxes {
			if b.Kind == press.NorthLabel {
				n++
			}
		}
		return n, p
	}
	for name, terr := range map[string]render.Territory{"island": merrow.territory(), "tall": skerry.territory(), "states": states(t)} {
		if n, _ := count(terr); n > 0 {
			t.Errorf("%s: %d arrows where north is up", name, n)
		}
	}
	land := render.Territory{Regions: []render.Region{{Name: "Frostmark", Shape: ringAround(-60, 60, 72, 78)}}}
	n, page := count(land)
	if n != 2 {
		t.Fatalf("%d arrows on a map of high latitudes, want 2", n)
	}
	// Where they stand, the ray to the pole differs from up by that much.
	pole := page.Pixel(grid.LonLat{Lat: 90})
	for _, b := range page.Layout.Boxes {
		if b.Kind != press.NorthLabel {
			continue
		}
		c := b.Center()
		dx, dy := pole.X-c.X, pole.Y-c.Y
		if angle := math.Abs(math.Atan2(dx, -dy)) * 180 / math.Pi; angle < 20 {
			t.Errorf("the arrow at %v stands where north slants by %.0f° only", c, angle)
		}
	}
}
