package tracing

import (
	"testing"

	"weekband/grid"
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
