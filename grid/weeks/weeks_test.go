package weeks_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"slices"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/source"
	"weekband/grid/units"
	"weekband/grid/weeks"
)

func celsius(v float64) units.Celsius { return units.Celsius(v) }

func ExampleCompute() {
	// One cell with the monthly means of a place on the lower plains.
	g, err := grid.New(grid.Box{West: -90, South: 40, East: -89, North: 41}, 1, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	normals := table{grid: g, has: []bool{true}}
	for _, t := range []float32{-4, -1.5, 4.5, 11, 17, 22, 24, 23, 19, 12.5, 5.5, -1.5} {
		normals.vals = append(normals.vals, []float32{t})
	}
	fields, err := weeks.Compute(context.Background(), normals, windows(), weeks.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range fields {
		day, _ := f.Day.At(grid.Cell{})
		fmt.Println(f.Window.ID, season.Day(day).Week())
	}
	// Output:
	// summer-annuals Apr 16–22
	// winter-annuals Sep 17–23
}

func TestSameBytesOnAnyNumberOfWorkers(t *testing.T) {
	n := randomYears(t, 70, 9)
	one, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	eight, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{Workers: 8})
	if err != nil {
		t.Fatal(err)
	}
	for k := range one {
		for row := range 70 {
			a, ha := one[k].Day.Row(row)
			b, hb := eight[k].Day.Row(row)
			if !slices.Equal(ha, hb) || !slices.Equal(a, b) {
				t.Fatalf("row %d of %s differs", row, one[k].Window.ID)
			}
		}
	}
}

func TestCellsWithoutNormalsStayEmpty(t *testing.T) {
	n := randomYears(t, 5, 7)
	n.has[3*7+4] = false
	fields, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r, ok := fields[0].Reason.At(grid.Cell{Row: 3, Col: 4}); ok {
		t.Errorf("a cell without normals is %v", r)
	}
	if _, ok := fields[0].Reason.At(grid.Cell{Row: 3, Col: 3}); !ok {
		t.Error("its neighbour has no reason")
	}
}

// broken fails to read its third block.
type broken struct{ table }

var errBroken = errors.New("the disk is gone")

func (b broken) Read(first, rows int, dst *source.Rows) error {
	if first >= 32 {
		return errBroken
	}
	return b.table.Read(first, rows, dst)
}

func TestReadingErrorsComeThrough(t *testing.T) {
	if _, err := weeks.Compute(t.Context(), broken{randomYears(t, 70, 3)}, windows(), weeks.Options{}); !errors.Is(err, errBroken) {
		t.Errorf("got %v, want %v", err, errBroken)
	}
	done, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := weeks.Compute(done, randomYears(t, 70, 3), windows(), weeks.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v, want %v", err, context.Canceled)
	}
}

// Days around New Year keep their order: the cut moves into the gap.
func TestUnwrapsOverNewYear(t *testing.T) {
	n := randomYears(t, 1, 4)
	// Soil falls through 70 °F between mid-December and mid-January.
	for i, shift := range []float32{-1.2, -0.7, -0.1, 0.4} {
		for m, v := range []float32{17.2, 15.2, 17.5, 21, 24, 26.5, 28.5, 29.2, 28.8, 26.8, 23.8, 20.5} {
			n.vals[m][i] = v + shift
		}
	}
	fields, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	f := fields[1]
	var days []float32
	for col := range 4 {
		day, ok := f.Day.At(grid.Cell{Col: col})
		if !ok {
			t.Fatalf("cell %d has no day", col)
		}
		days = append(days, day)
	}
	if !slices.IsSorted(days) || days[0] >= 366 || days[3] < 366 {
		t.Errorf("days %v: want rising from before New Year to after", days)
	}
	bands := f.Bands()
	for i, d := range days {
		b := bands[weeks.BandOf(bands, season.Day(d))]
		if season.Day(d) < b.From || season.Day(d) >= b.To {
			t.Errorf("day %v of cell %d is not in its band %+v", d, i, b)
		}
	}
}

func BenchmarkCompute(b *testing.B) {
	n := randomYears(b, 256, 256)
	var fields []*weeks.Field
	before := heap()
	for b.Loop() {
		var err error
		if fields, err = weeks.Compute(b.Context(), n, windows()[:1], weeks.Options{}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N*n.grid.Cells())/b.Elapsed().Seconds(), "cells/s")
	b.ReportMetric(float64(heap()-before)/float64(n.grid.Cells()), "B/cell")
	runtime.KeepAlive(fields)
}

// heap returns how many bytes are in use.
func heap() int64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}

// An error of 0.5 K at a slope of 0.2 K/d is one of 2.5 days, and where the
// curve is flat the error is bounded.
func TestErrorOfTheNormalsBecomesDays(t *testing.T) {
	n := randomYears(t, 12, 12)
	se := table{grid: n.grid, has: n.has}
	for range n.vals {
		layer := make([]float32, n.grid.Cells())
		for i := range layer {
			layer[i] = 0.5
		}
		se.vals = append(se.vals, layer)
	}
	fields, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{SE: se})
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, f := range fields {
		for cell := range f.Day.All() {
			slope, _ := f.Slope.At(cell)
			got, ok := f.Error.At(cell)
			want := min(0.5/slope, 45)
			if !ok || math.Abs(float64(got-want)) > 1e-3*float64(want) {
				t.Fatalf("%v: %v days at %v K/d, want %v", cell, got, slope, want)
			}
			seen++
		}
	}
	if seen == 0 {
		t.Error("no dated cell")
	}
}

// Daily and monthly normals of the same year give the same day.
func TestDailyNormals(t *testing.T) {
	months := randomYears(t, 2, 5)
	days := table{grid: months.grid, has: months.has}
	for d := range season.YearDays {
		layer := make([]float32, months.grid.Cells())
		for i := range layer {
			var means [12]units.Celsius
			for m := range means {
				means[m] = units.Celsius(months.vals[m][i])
			}
			c := curve.FromMonths(&means)
			layer[i] = float32(c.At(season.Day(d) + 1.5)) // noon is near enough the mean of the day
		}
		days.vals = append(days.vals, layer)
	}
	want, err := weeks.Compute(t.Context(), months, windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	got, err := weeks.Compute(t.Context(), days, windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	compared := 0
	for k := range want {
		for cell, day := range want[k].Day.All() {
			if reason, _ := want[k].Reason.At(cell); reason != crossing.Dated {
				continue
			}
			other, ok := got[k].Day.At(cell)
			if !ok || math.Abs(float64(day-other)) > 0.05 {
				t.Errorf("%s, %v: %v from months, %v from days", want[k].Window.ID, cell, day, other)
			}
			compared++
		}
	}
	if compared < 8 {
		t.Errorf("%d crossings were compared", compared)
	}
}
