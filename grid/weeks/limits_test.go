package weeks_test

import (
	"math"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/weeks"
)

// A margin lies below 0 just where its reason holds, and is the distance of
// the year's extreme from the level.
func TestMarginsSignReasons(t *testing.T) {
	held := map[crossing.Reason]int{}
	for _, f := range computed(t, 20, 20) {
		level := float32(f.Window.Trigger.Level)
		for cell, reason := range f.Reason.All() {
			for _, of := range []crossing.Reason{crossing.Never, crossing.Always} {
				margin, ok := f.Margin(of).At(cell)
				if !ok || (margin < 0) != (reason == of) {
					t.Errorf("%s, cell %v: %v, and %v's margin is %g", f.Window.ID, cell, reason, of, margin)
				}
			}
			slope, crosses := f.Margin(crossing.Flat).At(cell)
			if crosses != reason.Crosses() || crosses && (slope < 0) != (reason == crossing.Flat) {
				t.Errorf("%s, cell %v: %v, and its slope's margin is %g", f.Window.ID, cell, reason, slope)
			}
			held[reason]++
		}
		cell := grid.Cell{Row: 3, Col: 5}
		warmest, _ := f.Warmest.At(cell)
		if margin, _ := f.Margin(crossing.Never).At(cell); margin != warmest-level {
			t.Errorf("a warmest day of %g °C clears %g °C by %g K", warmest, level, margin)
		}
	}
	for _, reason := range []crossing.Reason{crossing.Never, crossing.Always, crossing.Dated} {
		if held[reason] == 0 {
			t.Errorf("no cell is of reason %v: %v", reason, held)
		}
	}
}

// Land is all with normals, whether it has a day or none; ground whose
// offset stations tell less than half lies beyond their reach, and where
// nothing was calibrated none does.
func TestLandAndReach(t *testing.T) {
	f := computed(t, 2, 2)[0]
	each := f.Grid().CellArea(0)
	if land, all := f.Land(), 2*each+2*f.Grid().CellArea(1); math.Abs(land-all) > 1e-9*all {
		t.Errorf("%g km² of land, the grid's cells cover %g", land, all)
	}
	if f.Beyond() != 0 || f.BeyondReach(grid.Cell{}) {
		t.Error("ground lies beyond stations that nobody asked")
	}
	common := *f.Common
	f.Common = &common
	f.Near = grid.NewRaster[float32](f.Grid())
	f.Near.Set(grid.Cell{}, 0.49)
	f.Near.Set(grid.Cell{Col: 1}, weeks.BeyondBelow)
	for cell, want := range map[grid.Cell]bool{{}: true, {Col: 1}: false, {Row: 1}: false} {
		if f.BeyondReach(cell) != want {
			t.Errorf("cell %v is beyond reach: %t", cell, !want)
		}
	}
	if f.Beyond() != each {
		t.Errorf("%g km² lie beyond reach, want those of one cell, %g", f.Beyond(), each)
	}
}

// The day is expected to be off by √(2/π) of the standard error of the
// middle cell: the mean of |x| for normally distributed x.
func TestExpectedOfTheMiddleCell(t *testing.T) {
	f := fieldOf(t, 80, 81, 82)
	if f.Expected() != 0 {
		t.Error("an error that is not known is expected")
	}
	f.Error = grid.NewRaster[float32](f.Grid())
	if f.Expected() != 0 {
		t.Error("an error is expected where nothing crosses")
	}
	for i, e := range []float32{9, 2, 6} {
		f.Error.Set(grid.Cell{Col: i}, e)
	}
	if got := f.Expected(); math.Abs(got-4.78731) > 1e-4 {
		t.Errorf("expects %.5f days, want 4.78731", got)
	}
}

// Areas of bands are those of their cells and leave none out; between the
// bands lie the breaks.
func TestAreasOfBands(t *testing.T) {
	f := fieldOf(t, 9, 9.9, 16, 30) // weeks 2, 2, 3 and 5
	bands, each := f.Bands(), f.Grid().CellArea(0)
	breaks := weeks.Breaks(bands)
	if len(bands) != 4 || len(breaks) != 3 {
		t.Fatalf("bands %q, breaks %v", labels(bands), breaks)
	}
	for i, cells := range []float64{2, 1, 0, 1} {
		if got := weeks.BandAreas(bands, f.Day)[i]; math.Abs(got-cells*each) > 1e-9 {
			t.Errorf("band %d has %g km², want %g cells of %g", i, got, cells, each)
		}
	}
	for i, want := range []season.Day{15, 22, 29} { // the first days of weeks 3, 4 and 5
		if breaks[i] != float64(want) {
			t.Errorf("break %d at day %g, want %g", i, breaks[i], want)
		}
	}
}

// Standard deviations or errors of another grid are refused by name.
func TestOtherGridsAreRefused(t *testing.T) {
	normals, other := randomYears(t, 2, 2), randomYears(t, 2, 3)
	for want, opts := range map[string]weeks.Options{
		"standard deviations lie on another grid": {SD: other},
		"standard errors lie on another grid":     {SE: other},
	} {
		if _, err := weeks.Compute(t.Context(), normals, windows(), opts); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}
