package zonal

import (
	"slices"

	"weekband/grid"
	"weekband/grid/abreast"
	"weekband/regions"
)

// CoverAll returns the coverage of every region of a set, in its order. It
// works on all processors; the result does not depend on their number.
func CoverAll(set regions.Set, g grid.Grid) []Coverage {
	out := make([]Coverage, len(set.Regions))
	areas := make([]float64, g.Rows())
	for row := range areas {
		areas[row] = g.CellArea(row)
	}
	abreast.EachWith(len(out), func(i int, s *scratch) {
		o := outlineOf(set.Regions[i].Shape, g)
		s.runs = o.cover(0, g.Rows(), &s.row, s.runs[:0])
		out[i] = Coverage{Grid: g, Runs: slices.Clone(s.runs), Outside: o.outside, areas: areas}
	})
	return out
}

// scratch is room that one goroutine uses again and again. Runs are copied out
// of it, so that none keeps room for more.
type scratch struct {
	row  scanRow
	runs []Run
}
