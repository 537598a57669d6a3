package weeks

import (
	"fmt"

	"weekband/grid"
	"weekband/grid/season"
)

// Difference returns how many days later than in one edition the crossing
// comes in another, by the shorter way around the year, so from -182.5 to
// less than 182.5; earlier is negative. before and after hold days, unwrapped
// or of the year. The result has a value where both have one. It returns an
// error when they lie on different grids.
func Difference(before, after *grid.Raster[float32]) (*grid.Raster[float32], error) {
	if !before.Grid().Matches(after.Grid()) {
		return nil, fmt.Errorf("days lie on %v and on %v; bring both editions to one grid to compare them", before.Grid(), after.Grid())
	}
	out := grid.NewRaster[float32](before.Grid())
	for row := range before.Grid().Rows() {
		old, hasOld := before.Row(row)
		new, hasNew := after.Row(row)
		vals, has := out.Row(row)
		for col := range vals {
			if hasOld[col] && hasNew[col] {
				vals[col], has[col] = float32(season.Day(old[col]).Apart(season.Day(new[col]))), true
			}
		}
	}
	return out, nil
}
