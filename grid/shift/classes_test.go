package shift_test

import (
	"fmt"
	"testing"

	"weekband/grid"
	"weekband/grid/classes"
	"weekband/grid/shift"
)

func TestScaleByHand(t *testing.T) {
	even := func(lo, hi float32) (v []float32) {
		for i := range 41 {
			v = append(v, lo+(hi-lo)*float32(i)/40)
		}
		return v
	}
	for name, c := range map[string]struct {
		values []float32
		unit   shift.Unit
		step   int
		breaks string
		open   bool
	}{
		"none":              {[]float32{0, 0}, shift.Days, 0, "[]", false},
		"days":              {even(-4, 4), shift.Days, 0, "[-2 2]", false},
		"one cell far":      {append(even(-4, 4), 40), shift.Days, 0, "[-10 -5 -2 2 5 10]", true},
		"weeks":             {even(-16, 8), shift.Weeks, 1, "[-10.5 -3.5 3.5 10.5]", false},
		"three weeks":       {even(-20, 20), shift.Weeks, 1, "[-17.5 -10.5 -3.5 3.5 10.5 17.5]", false},
		"a few far":         {append(even(-16, 16), 90), shift.Weeks, 1, "[-17.5 -10.5 -3.5 3.5 10.5 17.5]", true},
		"a month":           {even(20, 40), shift.Weeks, 2, "[-35 -21 -7 7 21 35]", false},
		"most of half year": {even(60, 150), shift.Weeks, 8, "[-140 -84 -28 28 84 140]", false},
	} {
		s := shift.ScaleOf(days(c.values...))
		if s.Unit != c.unit || s.Step != c.step || fmt.Sprint(classes.Breaks(s.Classes)) != c.breaks {
			t.Errorf("%s: unit %d, step %d, breaks %v; want %d, %d, %s", name, s.Unit, s.Step, classes.Breaks(s.Classes), c.unit, c.step, c.breaks)
		}
		if last := s.Classes[len(s.Classes)-1]; last.OpenEnd != c.open || s.Classes[0].OpenBegin != c.open {
			t.Errorf("%s: the last class is %v", name, last)
		}
	}
	if s := shift.ScaleOf(grid.NewRaster[float32](mustGrid(box, 1, 2))); s.Classes != nil {
		t.Errorf("no shift gives %v", s.Classes)
	}
}
