package weeks

import (
	"weekband/grid"
	"weekband/grid/spread"
)

// EarlyLate returns the crossing days of an early and a late year, those of
// Years, for all cells.
func (f *Field) EarlyLate() (early, late *grid.Raster[float32]) {
	early, late = grid.NewRaster[float32](f.Grid()), grid.NewRaster[float32](f.Grid())
	for cell := range f.Day.All() {
		if e, l, ok := f.Years(cell); ok {
			early.Set(cell, float32(e))
			late.Set(cell, float32(l))
		}
	}
	return early, late
}

// ExpectedErrors returns every cell's expected error of the typical day, in
// days: the mean absolute error. It is nil when not known.
func (f *Field) ExpectedErrors() *grid.Raster[float32] {
	if f.Error == nil {
		return nil
	}
	out := grid.NewRaster[float32](f.Grid())
	for cell, stdErr := range f.Error.All() {
		out.Set(cell, float32(spread.Expected(float64(stdErr))))
	}
	return out
}
