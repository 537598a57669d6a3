//go:build unix

package sidebyside

import (
	"fmt"
	"math"
	"path/filepath"
	"testing"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/soil"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/weeks"
	"weekband/grid/worth"
)

// spring is the window of summer annuals: 55 °F, warming.
func spring() status.Window {
	return status.Window{
		ID: "summer-annuals", Title: "Summer annual weeds", AheadDays: status.DefaultAheadDays,
		Treatment: worth.Usual(worth.Medium), WorthFloor: status.DefaultWorthFloor,
		Trigger: crossing.Trigger{Level: 115. / 9, Direction: crossing.Warming},
		Starts:  crossing.Trigger{Level: 10, Direction: crossing.Warming},
	}
}

// months compares the way from monthly means to the crossing day: alone, and as
// weekband goes it for an edition, with spread, statuses and the end of
// catching up of every cell. It returns two rows, and the field.
func months(t *testing.T, e *expanse, s size, runs int, mode string) ([]row, *weeks.Field) {
	opts := weeks.Options{Soil: &soil.Air, Workers: threads}
	work := "crossing of air"
	if mode == "soil" {
		opts.Soil, opts.Offsets = &soil.Default, calibration.US().Over(e.normals.grid)
		work = "crossing of soil"
	}
	var alone *grid.Raster[float32]
	ours := best(t, runs, func() error { alone = crossingsAlone(e, spring(), opts); return nil })
	var fields []*weeks.Field
	all := best(t, runs, func() (err error) {
		fields, err = weeks.Compute(t.Context(), e.normals, []status.Window{spring()}, opts)
		return err
	})
	compareAlone(t, alone, fields[0])
	writeCells(t, e, opts)
	theirs := script(t, python(t), "months.py", mode, e.dir, fmt.Sprint(threads), fmt.Sprint(runs))
	agree := compareDays(t, e, fields[0], readFloats(t, filepath.Join(e.dir, "days.f32")))
	on := fmt.Sprintf("%v, %d of land", s, len(e.normals.cells()))
	return []row{
		{"from months to the " + work, on, ours, theirs.cost, theirs.Tools, agree},
		{"the same, with all of a field", on, all, theirs.cost, "the same, which has the crossing only", agree},
	}, fields[0]
}

// compareAlone holds the days that were worked out alone to those of a field.
func compareAlone(t *testing.T, alone *grid.Raster[float32], f *weeks.Field) {
	t.Helper()
	if alone.Count() != f.Day.Count() {
		t.Fatalf("%d cells have a day alone, %d in the field", alone.Count(), f.Day.Count())
	}
	for cell, day := range alone.All() {
		want, ok := f.Day.At(cell)
		if gap := math.Abs(float64(day - weeks.DayOfYear(want))); !ok || gap > 0.001 {
			t.Fatalf("cell %v: day %g alone, %g in the field", cell, day, want)
		}
	}
}

// writeCells writes the months of the cells of land, and their offsets.
func writeCells(t *testing.T, e *expanse, opts weeks.Options) {
	t.Helper()
	cells := e.normals.cells()
	columns, offsets := make([][]float32, 12), make([][]float32, 5)
	for _, cell := range cells {
		i := cell.Row*e.normals.grid.Cols() + cell.Col
		var means [12]units.Celsius
		for m := range columns {
			v := e.normals.rows.Vals[m][i]
			columns[m] = append(columns[m], v)
			means[m] = units.Celsius(v)
		}
		var o soil.Offset
		if opts.Offsets != nil {
			c := curve.FromMonths(&means)
			var air curve.Year
			c.Sample(&air)
			o, _ = opts.Offsets.At(cell, calibration.ColdestOf(&air))
		}
		for k, v := range []float64{o.Mean, o.Cos1, o.Sin1, o.Cos2, o.Sin2} {
			offsets[k] = append(offsets[k], float32(v))
		}
	}
	writeFloats(t, filepath.Join(e.dir, "months.f32"), columns...)
	writeFloats(t, filepath.Join(e.dir, "offsets.f32"), offsets...)
}

// compareDays holds our days to theirs, straight from day to day: within 0.1
// day but for one cell of a thousand, where the year only grazes the level.
func compareDays(t *testing.T, e *expanse, f *weeks.Field, theirs []float32) string {
	t.Helper()
	cells := e.normals.cells()
	if len(theirs) != len(cells) {
		t.Fatalf("%d days for %d cells", len(theirs), len(cells))
	}
	dated, far, sum := 0, 0, 0.0
	for i, cell := range cells {
		day, ok := f.Day.At(cell)
		reason, _ := f.Reason.At(cell)
		if reason == crossing.Flat {
			continue // numpy tells a day for these
		}
		if ok != (theirs[i] != 0) {
			far++
			continue
		}
		if !ok {
			continue
		}
		dated++
		gap := math.Abs(float64(weeks.DayOfYear(day) - theirs[i]))
		gap = min(gap, 365-gap)
		sum += gap
		if gap > 0.1 {
			far++
		}
	}
	if dated < len(cells)/2 || far*1000 > len(cells) {
		t.Errorf("%d of %d cells have a day, %d differ by more than 0.1 day or in having one", dated, len(cells), far)
	}
	return fmt.Sprintf("%.4f days on average, %d cells beyond 0.1", sum/float64(max(dated, 1)), far)
}
