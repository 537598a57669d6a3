package weeks_test

import (
	"context"
	"errors"
	"math"
	"runtime"
	"slices"
	"testing"

	"weekband/grid"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/weeks"
	"weekband/grid/worth"
)

func computed(t testing.TB, rows, cols int) []*weeks.Field {
	t.Helper()
	fields, err := weeks.Compute(t.Context(), randomYears(t, rows, cols), windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return fields
}

// Early and late days lie alike on both sides of the typical day and are
// those of Years: 1.2816 deviations of spread and error together.
func TestEarlyLateByHand(t *testing.T) {
	f := fieldOf(t, 80.5, 81.5, 82.5)
	f.Spread, f.Error = grid.NewRaster[float32](f.Grid()), grid.NewRaster[float32](f.Grid())
	for i, v := range []struct{ sd, stdErr float32 }{{11, 0}, {8, 6}, {3, 4}} {
		f.Spread.Set(grid.Cell{Col: i}, v.sd)
		f.Error.Set(grid.Cell{Col: i}, v.stdErr)
	}
	early, late := f.EarlyLate()
	for i, want := range []struct{ early, late float64 }{{66.403, 94.597}, {68.684, 94.316}, {76.092, 88.908}} {
		e, _ := early.At(grid.Cell{Col: i})
		l, _ := late.At(grid.Cell{Col: i})
		if math.Abs(float64(e)-want.early) > 1e-3 || math.Abs(float64(l)-want.late) > 1e-3 {
			t.Errorf("cell %d: %.3f and %.3f, want %.3f and %.3f", i, e, l, want.early, want.late)
		}
	}
	errs := f.ExpectedErrors()
	if e, _ := errs.At(grid.Cell{Col: 1}); math.Abs(float64(e)-4.78731) > 1e-4 { // 6·√(2/π)
		t.Errorf("a standard error of 6 days is expected to be off by %.5f days", e)
	}
	if f.Error = nil; f.ExpectedErrors() != nil {
		t.Error("errors that are not known have a raster")
	}
}

// slowWorth is the worth of a moment worked out from the definition: ten
// equally likely years, one season a time.
func slowWorth(f *weeks.Field, cell grid.Cell, on season.Day) (percent float64, ok bool) {
	cal, ok := f.Calendar(cell)
	var year curve.Year
	if !ok || !f.Typical.Year(cell, &year) {
		return 0, false
	}
	year.Shift(float64(f.Window.Trigger.Level) - year.At(cal.OntimeTo))
	sd, _ := f.Spread.At(cell)
	var s worth.Season
	costs := f.Window.Value(&year, cal, spread.Together(float64(sd), f.ErrorAt(cell)), &s).Costs
	switch on {
	case cal.OntimeFrom:
		return 100 * costs.OntimeFrom.Worth, true
	case cal.OntimeTo:
		return 100 * costs.OntimeTo.Worth, true
	}
	panic("only the borders of on time")
}

// The raster agrees with what tables and lookups say of the borders of on
// time, before and after New Year.
func TestWorthAgreesWithCosts(t *testing.T) {
	for _, f := range computed(t, 5, 8) {
		tried := 0
		for cell := range f.Day.All() {
			cal, _ := f.Calendar(cell)
			for _, on := range []season.Day{cal.OntimeFrom, cal.OntimeTo} {
				r, err := f.Worth(t.Context(), on.In())
				if err != nil {
					t.Fatal(err)
				}
				got, ok := r.At(cell)
				want, _ := slowWorth(f, cell, on)
				if !ok || math.Abs(float64(got)-want) > 0.02 {
					t.Errorf("%s, %v on %v: %.3f, want %.3f", f.Window.ID, cell, on, got, want)
				}
				tried++
			}
			if tried > 20 {
				break
			}
		}
		if tried == 0 {
			t.Errorf("%s: nothing was compared", f.Window.ID)
		}
	}
}

// Long before the season little is left of a treatment, long after it nothing
// is left to stop; no value leaves 0 to 100, and the number of workers does
// not matter.
func TestWorthOfTheWholeYear(t *testing.T) {
	f := computed(t, 12, 9)[0]
	for w := season.Week(1); w <= season.Weeks; w++ {
		r, err := f.Worth(t.Context(), w.Middle())
		if err != nil {
			t.Fatal(err)
		}
		procs := runtime.GOMAXPROCS(1)
		one, err := f.Worth(t.Context(), w.Middle())
		runtime.GOMAXPROCS(procs)
		if err != nil || r.Count() != f.Day.Count() {
			t.Fatalf("%d values for %d days; %v", r.Count(), f.Day.Count(), err)
		}
		for row := range 12 {
			a, ha := r.Row(row)
			b, hb := one.Row(row)
			if !slices.Equal(a, b) || !slices.Equal(ha, hb) {
				t.Fatalf("week %v, row %d: other values with one worker", w, row)
			}
		}
		for cell, v := range r.All() {
			day, _ := f.Day.At(cell)
			after := season.Day(day).DaysTo(w.Middle())
			if v < 0 || v > 100 || after > 130 && after < 180 && v > 5 {
				t.Errorf("%v, %.0f days after the crossing: %.1f %%", cell, after, v)
			}
		}
	}
	stopped, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := f.Worth(stopped, 80); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped, it says %v", err)
	}
}

// A block's typical year stands for all its cells, shifted to the day of each.
func TestWorthOfBlocks(t *testing.T) {
	f := computed(t, 4, 4)[0]
	var dated grid.Cell
	for cell := range f.Day.All() {
		dated = cell
	}
	months, _ := f.Typical.Blocks.At(dated)
	for row := range 4 { // one climate for all
		for col := range 4 {
			f.Day.Set(grid.Cell{Row: row, Col: col}, 90)
			f.Spread.Set(grid.Cell{Row: row, Col: col}, 11)
		}
	}
	f.Day.Set(grid.Cell{Row: 1, Col: 1}, 97)
	blocks, err := grid.New(f.Grid().Box(), 2, 2)
	if err != nil {
		t.Fatal(err)
	}
	f.Typical.Stride, f.Typical.Blocks = 2, grid.NewRaster[weeks.Months](blocks)
	f.Typical.Blocks.Set(grid.Cell{}, months)
	r, err := f.Worth(t.Context(), 60)
	if err != nil {
		t.Fatal(err)
	}
	a, okA := r.At(grid.Cell{Row: 0, Col: 0})
	b, okB := r.At(grid.Cell{Row: 0, Col: 1})
	c, okC := r.At(grid.Cell{Row: 1, Col: 1})
	if !okA || !okB || a != b {
		t.Errorf("two cells of a block are worth %g and %g", a, b)
	}
	if !okC || c == a {
		t.Errorf("the cell that crosses a week later is worth %g too", c)
	}
	if _, ok := r.At(grid.Cell{Row: 3, Col: 3}); ok {
		t.Error("a block without a year has a worth")
	}
}

func TestOntimeMiddle(t *testing.T) {
	f := fieldOf(t, 100, 110, 120)
	f.OntimeFrom = moved(f, -30)
	if day, ok := f.OntimeMiddle(); !ok || day != 95 {
		t.Errorf("the middle of on time is %v, want 95", day)
	}
	f.OntimeFrom = grid.NewRaster[float32](f.Grid())
	if _, ok := f.OntimeMiddle(); ok {
		t.Error("nothing has a middle")
	}
}

func BenchmarkWorth(b *testing.B) {
	f := computed(b, 64, 64)[0]
	for b.Loop() {
		if _, err := f.Worth(b.Context(), 80); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N*f.Day.Count())/b.Elapsed().Seconds(), "cells/s")
}
