package tracing

import (
	"testing"

	"github.com/paulmach/orb"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/weeks"
	"weekband/regions"
)

// A picture has a cell for every pixel, and an inset has its own say.
func TestDetail(t *testing.T) {
	g, err := grid.New(grid.Box{West: -125, South: 24, East: -66.5, North: 49.875}, 3105, 7020)
	if err != nil {
		t.Fatal(err)
	}
	for pixels, want := range map[float64]int{2400: 2, 900: 7, 7020: 1, 9000: 0} {
		if got := int(cellsPerPixel(g, g.Box(), pixels)); got != want {
			t.Errorf("%v pixels: %d cells each, want %d", pixels, got, want)
		}
	}
	coarse, fine := Detail{small: false}, Detail{small: true}
	if a, b := coarse.Lines(), fine.Lines(); a.Simplify != 0 || !(b.Simplify > 0.1) {
		t.Errorf("lines of coarse cells %+v, of fine ones %+v", a, b)
	}
}

// on are normals on a grid, of which nothing but that is asked.
type on struct {
	weeks.Normals
	grid grid.Grid
}

func (o on) Grid() grid.Grid { return o.grid }

// region is a square of a number of degrees.
func region(west, south, side float64) regions.Region {
	shape := orb.MultiPolygon{{{{west, south}, {west + side, south}, {west + side, south + side}, {west, south + side}, {west, south}}}}
	return regions.Region{Shape: shape, Bounds: regions.BoundsOf(shape)}
}

// By hand: 0.01° cells under a mainland of 30° and isles of 4° far off. A picture of
// 1,200 layout pixels has 2,400 pixels. Of all 50° it shows 5,000 / 2,400 = 2 cells a
// pixel, of the mainland alone 3,000 / 2,400 = 1, and of the isles, as an inset, less.
func TestDetailOf(t *testing.T) {
	g, err := grid.New(grid.Box{West: 0, South: 0, East: 60, North: 40}, 4000, 6000)
	if err != nil {
		t.Fatal(err)
	}
	in := &inputs.Set{Normals: on{grid: g}, Areas: regions.Set{Regions: []regions.Region{region(0, 0, 30), region(46, 1, 4)}}}
	isles := recipe.Inset{Box: grid.Box{West: 45, South: 0, East: 51, North: 6}}
	for name, c := range map[string]struct {
		areas  bool
		insets []recipe.Inset
		want   Detail
	}{
		"the whole grid": {false, nil, Detail{Large: 2, Frames: 6, Files: 2, small: true}},                   // 6,000 / 2,400 and / 900; √(24 / 6 million)
		"regions":        {true, nil, Detail{Large: 2, Frames: 5, Files: 2, small: true}},                    // 5,000 / 900
		"with the inset": {true, []recipe.Inset{isles}, Detail{Large: 1, Frames: 1, Files: 2, small: false}}, // 400 / 800
	} {
		set := *in
		if !c.areas {
			set.Areas = regions.Set{}
		}
		r := &recipe.Recipe{Looks: recipe.Looks{Size: 1200, Insets: c.insets}}
		if got := DetailOf(r, &set); got != c.want {
			t.Errorf("%s: %+v, want %+v", name, got, c.want)
		}
	}
}
