package zonal

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"weekband/grid"
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
	c := Coverage{Grid: g, Outside: outside(shape, g)}
	edges := edgesOf(shape, g)
	if len(edges) == 0 {
		return c
	}
	west, east := g.Cols(), 0
	for _, e := range edges {
		west = min(west, clampCol(min(e.x0, e.x1), g))
		east = max(east, clampCol(max(e.x0, e.x1), g)+1)
	}
	row := newScanRow(west, east)
	var active []edge
	next := 0
	for r := int(edges[0].y0); r < g.Rows() && (next < len(edges) || len(active) > 0); r++ {
		top, bottom := float64(r), float64(r+1)
		for next < len(edges) && edges[next].y0 < bottom {
			active = append(active, edges[next])
			next++
		}
		kept := active[:0]
		for _, e := range active {
			row.add(e.between(top, bottom), top)
			if e.y1 > bottom {
				kept = append(kept, e)
			}
		}
		active = kept
		c.Runs = row.flush(r, c.Runs)
	}
	return c
}

// outside returns the area of a shape off the grid in km², exactly 0 when its
// bounds lie on the grid.
func outside(shape orb.MultiPolygon, g grid.Grid) float64 {
	box, b := g.Box(), regions.BoundsOf(shape)
	if b.West >= box.West && b.East <= box.East && b.South >= box.South && b.North <= box.North {
		return 0
	}
	return max(0, regions.Area(shape)-regions.AreaWithin(shape, box))
}

// edge is a ring's edge in cells from the north-western corner, x to the east
// and y to the south, with y0 < y1. sign is +1 when it runs south in the
// ring, so that the shape lies to the east of it.
type edge struct{ x0, y0, x1, y1, sign float64 }

// edgesOf returns the edges that touch rows of the grid, cut to those rows
// and sorted from the north. Edges along a parallel enclose nothing and are
// left out.
func edgesOf(shape orb.MultiPolygon, g grid.Grid) []edge {
	var edges []edge
	south := float64(g.Rows())
	for _, polygon := range shape {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				e := newEdge(ring[i-1], ring[i], g)
				if e.y0 == e.y1 || e.y1 <= 0 || e.y0 >= south {
					continue
				}
				edges = append(edges, e.between(0, south))
			}
		}
	}
	slices.SortFunc(edges, func(a, b edge) int { return cmp.Compare(a.y0, b.y0) })
	return edges
}

func newEdge(p, q orb.Point, g grid.Grid) edge {
	y0, x0 := g.Position(grid.LonLat{Lon: p[0], Lat: p[1]})
	y1, x1 := g.Position(grid.LonLat{Lon: q[0], Lat: q[1]})
	if y0 > y1 {
		return edge{x1, y1, x0, y0, -1}
	}
	return edge{x0, y0, x1, y1, +1}
}

// between returns the part of the edge with top <= y <= bottom.
func (e edge) between(top, bottom float64) edge {
	cut := e
	if e.y0 < top {
		cut.x0, cut.y0 = e.at(top), top
	}
	if e.y1 > bottom {
		cut.x1, cut.y1 = e.at(bottom), bottom
	}
	return cut
}

func (e edge) at(y float64) float64 { return e.x0 + float64((y-e.y0)/(e.y1-e.y0)*(e.x1-e.x0)) }

// clampCol returns the column x falls in, the first or last for positions
// beside the grid.
func clampCol(x float64, g grid.Grid) int {
	return int(min(max(math.Floor(x), 0), float64(g.Cols()-1)))
}
