package grid_test

import (
	"testing"

	"weekband/grid"
)

// Five rows of seven cells in blocks of three: two rows of three blocks, the
// last of which reach one row and two columns past the grid.
func TestPoolByHand(t *testing.T) {
	g, err := grid.New(grid.Box{West: 10, South: 40, East: 17, North: 45}, 5, 7)
	if err != nil {
		t.Fatal(err)
	}
	onto, ok := g.Pooled(3)
	if want := (grid.Box{West: 10, South: 39, East: 19, North: 45}); !ok || onto.Box() != want || onto.Rows() != 2 || onto.Cols() != 3 {
		t.Fatalf("%v, %v; want 2 rows and 3 columns of %v", onto, ok, want)
	}
	r := grid.NewRaster[float32](g)
	for _, c := range []struct {
		row, col int
		v        float32
	}{{0, 0, 4}, {2, 2, 8}, {1, 6, 5}, {4, 2, 1}, {3, 0, 2}, {4, 0, 6}} {
		r.Set(grid.Cell{Row: c.row, Col: c.col}, c.v)
	}
	means := grid.Pool(onto, 3, g.Rows(), r.Row)
	for row, line := range [][]float32{{6, 0, 5}, {3, 0, 0}} {
		for col, want := range line {
			if got, ok := means.At(grid.Cell{Row: row, Col: col}); ok != (want != 0) || ok && got != want {
				t.Errorf("block %d, %d: %v, %v; want %v", row, col, got, ok, want)
			}
		}
	}
}

// Blocks do not reach past the end of the world.
func TestPooledStaysOnTheWorld(t *testing.T) {
	world, err := grid.New(grid.Box{West: -180, South: -90, East: 180, North: 90}, 18, 36)
	if err != nil {
		t.Fatal(err)
	}
	for n, want := range map[int]bool{1: true, 2: true, 9: true, 5: false, 7: false} {
		if _, ok := world.Pooled(n); ok != want {
			t.Errorf("blocks of %d: %v, want %v", n, ok, want)
		}
	}
}
