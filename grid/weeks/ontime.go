package weeks

import (
	"weekband/grid"
	"weekband/grid/classes"
	"weekband/grid/season"
)

// OntimeMiddle returns the middle of on time in the middle of the ground: the
// area's median over the cells, unwrapped like Day. ok is false without
// crossings.
func (f *Field) OntimeMiddle() (day season.Day, ok bool) {
	middles := grid.NewRaster[float32](f.Grid())
	for cell, from := range f.OntimeFrom.All() {
		to, _ := f.Day.At(cell)
		middles.Set(cell, (from+to)/2)
	}
	median := classes.Quantiles(middles, 0.5)
	if median == nil {
		return 0, false
	}
	return season.Day(median[0]), true
}
