package zonal

import (
	"slices"

	"github.com/paulmach/orb"

	"weekband/grid"
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
	o := outlineOf(shape, g)
	runs := o.cover(0, g.Rows(), new(scanRow), nil)
	return Coverage{Grid: g, Runs: slices.Clip(runs), Outside: o.outside}
}
