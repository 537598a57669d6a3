package zonal

import (
	"slices"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/abreast"
	"weekband/regions"
)

// Cover returns the exact share of each cell that a shape covers, in the
// plane of longitude and latitude, in which the shape's edges are straight
// (RFC 7946). Outer rings must run counter-clockwise and holes clockwise, as
// those of regions do. Where parts of a shape overlap, shares add and stop at
// 1. An empty shape or grid gives an empty coverage.
//
// The work grows with the number of cells that edges cross, not with the
// number of cells inside.
func Cover(shape orb.MultiPolygon, g grid.Grid) Coverage {
	return new(scratch).cover(shape, g)
}

// scratch is room that one goroutine uses again and again. Runs are copied out
// of it, so that none keeps room for more.
type scratch struct {
	row  scanRow
	runs []Run
}

// cover is Cover in used room.
func (s *scratch) cover(shape orb.MultiPolygon, g grid.Grid) Coverage {
	o := outlineOf(shape, g)
	s.runs = o.cover(0, g.Rows(), &s.row, s.runs[:0])
	return Coverage{Grid: g, Runs: slices.Clone(s.runs), Outside: o.outside}
}

// CoverAll returns the coverage of every region of a set, in its order. It
// works on all processors; the result does not depend on their number.
func CoverAll(set regions.Set, g grid.Grid) []Coverage {
	out := make([]Coverage, len(set.Regions))
	areas := make([]float64, g.Rows())
	for row := range areas {
		areas[row] = g.CellArea(row)
	}
	abreast.EachWith(len(out), func(i int, s *scratch) {
		out[i] = s.cover(set.Regions[i].Shape, g)
		out[i].areas = areas
	})
	return out
}
