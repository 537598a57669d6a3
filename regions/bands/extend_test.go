package bands_test

import (
	"testing"

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

func TestExtendNothing(t *testing.T) {
	f := newField(t, 2, 2, func(int, int) (float64, bool) { return 0, false })
	got := bands.Field{Day: f.Day}.Extend(3)
	if n := got.Day.Count() + got.Class.Count(); n != 0 {
		t.Errorf("%d cells grown from nothing", n)
	}
}
