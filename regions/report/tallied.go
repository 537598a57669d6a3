package report

import (
	"weekband/grid/abreast"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/grid/worth"
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

// AddValues works out Value, Soil and Doubt of rows of Tallied, from fields that
// hold a sample of the cells: at its cell whose crossing lies nearest to the
// median. covers[i] is the cover of region i on the grid of the fields; a
// region with no cell of the sample stays without.
func AddValues(rows []Row, fields []*weeks.Field, covers []zonal.Coverage) {
	n := len(covers)
	abreast.EachWith(len(rows), func(i int, s *worth.Season) {
		rows[i].value(fields[i/n], covers[i%n], s)
	})
}
