package render

import (
	"testing"

	"github.com/paulmach/orb"

	"weekband/render/plane"
)

// Borders of regions that are hardly larger than lines are left out, the coast
// never: on a small map of a thousand counties they would be all one sees.
func TestBordersOfSmallRegions(t *testing.T) {
	const side = 32
	territory := Territory{Coast: []orb.LineString{{{0, 0}, {side, 0}, {side, side}, {0, side}, {0, 0}}}}
	for x := range side {
		for y := range side {
			west, south := float64(x), float64(y)
			ring := orb.Ring{{west, south}, {west + 1, south}, {west + 1, south + 1}, {west, south + 1}, {west, south}}
			territory.Regions = append(territory.Regions, Region{Shape: orb.MultiPolygon{{ring}}})
		}
		if x > 0 {
			territory.Borders = append(territory.Borders, orb.LineString{{float64(x), 0}, {float64(x), side}})
		}
	}
	a, err := NewAtlas(territory, 900)
	if err != nil {
		t.Fatal(err)
	}
	for width, bordered := range map[float64]bool{900: true, 300: true, 120: false} {
		s, _ := bareScene(a, plane.Rect{Right: width, Bottom: width}, a.unit, 0)
		if s.borders.Empty() == bordered || s.coast.Empty() {
			t.Errorf("%g px: borders %v, want %v; coast %v", width, !s.borders.Empty(), bordered, !s.coast.Empty())
		}
	}
}
