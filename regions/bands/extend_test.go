package bands_test

import (
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"weekband/grid"
	"weekband/regions/bands"
)

func TestExtendByHand(t *testing.T) {
	// Row 1 holds days 10 and 20, then class 2, then nothing.
	f := newField(t, 3, 6, func(row, col int) (float64, bool) {
		return float64(10 * (col + 1)), row == 1 && col < 2
	})
	f.Class.Set(grid.Cell{Row: 1, Col: 2}, 2)
	got := f.Extend(1)
	for _, c := range []struct {
		cell  grid.Cell
		day   float32 // 0 for none
		class uint8
	}{
		{grid.Cell{Row: 0, Col: 0}, 15, 0}, // 10 and 20
		{grid.Cell{Row: 0, Col: 1}, 15, 0}, // 10, 20 and the class: days win
		{grid.Cell{Row: 2, Col: 2}, 20, 0}, // 20 and the class: a tie, days win
		{grid.Cell{Row: 0, Col: 3}, 0, 2},
		{grid.Cell{Row: 1, Col: 3}, 0, 2},
		{grid.Cell{Row: 1, Col: 0}, 10, 0},
		{grid.Cell{Row: 1, Col: 4}, 0, 0},
	} {
		day, dated := got.Day.At(c.cell)
		class, _ := got.Class.At(c.cell)
		if !dated {
			day = 0
		}
		if day != c.day || class != c.class {
			t.Errorf("%+v: day %v class %d, want %v and %d", c.cell, day, class, c.day, c.class)
		}
	}
	if n := f.Day.Count(); n != 2 {
		t.Errorf("the field given has %d days now, had 2", n)
	}
	if got := f.Extend(2); !filled(got, 1, 4) || filled(got, 1, 5) {
		t.Error("two cells grown, want columns 3 and 4 filled and 5 empty")
	}
	if got := f.Extend(0); got.Day.Count() != 2 {
		t.Errorf("grown by nothing: %d days, want 2", got.Day.Count())
	}
}

// However coarse the outline of a field that reaches past its cells, it holds
// them all.
func TestExtendedFieldCoversItsCells(t *testing.T) {
	for seed := range int64(3) {
		f := waves(t, 60, 80, seed)
		breaks := []float64{84, 98, 112, 126}
		fine, err := bands.Trace(f.Extend(3), breaks, bands.Options{})
		if err != nil {
			t.Fatal(err)
		}
		set, err := bands.Trace(f.Extend(3), breaks, bands.Options{Outline: 1})
		if err != nil {
			t.Fatal(err)
		}
		if a, b := vertices(set), vertices(fine); a >= b {
			t.Errorf("seed %d: %d vertices with a coarse outline, %d without", seed, a, b)
		}
		g := f.Day.Grid()
		for row := range g.Rows() {
			for col := range g.Cols() {
				if !filled(f, row, col) {
					continue
				}
				b := g.Bounds(grid.Cell{Row: row, Col: col})
				for _, p := range []orb.Point{{b.West, b.South}, {b.East, b.South}, {b.West, b.North}, {b.East, b.North}} {
					p[0], p[1] = p[0]+0.001*(b.West+b.East-2*p[0]), p[1]+0.001*(b.South+b.North-2*p[1])
					in := 0
					for _, band := range set.Bands {
						if planar.MultiPolygonContains(band.Shape, p) {
							in++
						}
					}
					if in != 1 {
						t.Fatalf("seed %d: %v in the cell %d, %d lies in %d bands, want 1", seed, p, row, col, in)
					}
				}
			}
		}
	}
}

func vertices(set bands.Set) (n int) {
	for _, band := range set.Bands {
		for _, polygon := range band.Shape {
			for _, ring := range polygon {
				n += len(ring)
			}
		}
	}
	return n
}

func TestExtendNothing(t *testing.T) {
	f := newField(t, 2, 2, func(int, int) (float64, bool) { return 0, false })
	got := bands.Field{Day: f.Day}.Extend(3)
	if n := got.Day.Count() + got.Class.Count(); n != 0 {
		t.Errorf("%d cells grown from nothing", n)
	}
}
