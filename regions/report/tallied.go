package report

import (
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/zonal"
)

// Tallied returns the rows of Build from one tally a window, whose fields were
// never held as a whole. Quantiles are as exact as zonal.Sums tells: of the
// same dates. Value, Soil and Doubt, which take a typical year, are missing.
func Tallied(windows []status.Window, set regions.Set, tallies []*zonal.Tally) []Row {
	var rows []Row
	titles := set.Titles()
	for k := range windows {
		km2, _ := tallies[k].Ground()
		cut := weeks.CutOf(km2)
		for i, r := range set.Regions {
			one := rowOf(&windows[k], r, tallies[k].Region(i, cut))
			one.Name = titles[i]
			rows = append(rows, one)
		}
	}
	return rows
}
