package weeks

import (
	"weekband/grid"
	"weekband/grid/crossing"
)

// Margin returns by how much every cell's year stays clear of having no day
// for a reason: below 0 the reason holds. For Never and Always it is in
// kelvins, for Flat in K/d and without a value where nothing crosses. It is
// continuous where the classes of cells jump, so its contour at 0 is the
// limit of that ground. It panics for another reason.
func (f *Field) Margin(reason crossing.Reason) *grid.Raster[float32] {
	if reason == crossing.Flat {
		return f.steepness()
	}
	level := float32(f.Window.Trigger.Level)
	out := grid.NewRaster[float32](f.Grid())
	for row := range f.Grid().Rows() {
		coldest, has := f.Coldest.Row(row)
		warmest, _ := f.Warmest.Row(row)
		vals, set := out.Row(row)
		copy(set, has)
		for col := range vals {
			switch reason {
			case crossing.Never:
				vals[col] = warmest[col] - level
			case crossing.Always:
				vals[col] = level - coldest[col]
			default:
				panic("weeks: no margin for " + reason.String())
			}
		}
	}
	return out
}

// steepness returns by how much the slope exceeds that of a flat crossing.
func (f *Field) steepness() *grid.Raster[float32] {
	out := grid.NewRaster[float32](f.Grid())
	for cell, slope := range f.Slope.All() {
		out.Set(cell, slope-crossing.FlatSlope)
	}
	return out
}
