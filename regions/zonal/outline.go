package zonal

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/regions"
)

// outline is the rim of a shape on a grid: all that is needed to tell what the
// shape covers of any of its rows.
type outline struct {
	edges      []edge  // that touch rows of the grid, from the north
	west, east int     // columns [west, east) that edges reach
	south      float64 // row up to which they reach
	tallest    float64 // rows that the longest of them spans, or a hair more
	outside    float64 // area off the grid, km²
}

func outlineOf(shape orb.MultiPolygon, g grid.Grid) outline {
	o := outline{outside: outside(shape, g), edges: edgesOf(shape, g), west: g.Cols()}
	for _, e := range o.edges {
		o.west = min(o.west, clampCol(min(e.x0, e.x1), g))
		o.east = max(o.east, clampCol(max(e.x0, e.x1), g)+1)
		o.south = max(o.south, e.y1)
		o.tallest = max(o.tallest, e.y1-e.y0+1e-6)
	}
	return o
}

// reaches reports whether any edge reaches into rows [first, end).
func (o *outline) reaches(first, end int) bool {
	return len(o.edges) > 0 && o.edges[0].y0 < float64(end) && o.south > float64(first)
}

// cover appends the runs of rows [first, end). Whatever rows are asked for,
// the runs of a row come from the same edges in the same order, so that they
// are the same to the last bit.
func (o *outline) cover(first, end int, row *scanRow, runs []Run) []Run {
	if len(o.edges) == 0 {
		return runs
	}
	r := max(first, int(o.edges[0].y0))
	row.span(o.west, o.east)
	active, next := row.active[:0], o.firstNear(r)
	for ; next < len(o.edges) && o.edges[next].y0 < float64(r); next++ {
		if o.edges[next].y1 > float64(r) {
			active = append(active, o.edges[next])
		}
	}
	for ; r < end && (next < len(o.edges) || len(active) > 0); r++ {
		top, bottom := float64(r), float64(r+1)
		for ; next < len(o.edges) && o.edges[next].y0 < bottom; next++ {
			active = append(active, o.edges[next])
		}
		kept := active[:0]
		for _, e := range active {
			row.add(e.between(top, bottom))
			if e.y1 > bottom {
				kept = append(kept, e)
			}
		}
		active = kept
		runs = row.flush(r, runs)
	}
	row.active = active
	return runs
}

// firstNear returns the first edge that may reach row r; those before it all
// end north of it.
func (o *outline) firstNear(r int) int {
	from, _ := slices.BinarySearchFunc(o.edges, float64(r)-o.tallest, func(e edge, y float64) int { return cmp.Compare(e.y0, y) })
	return from
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
	points := 0
	for _, polygon := range shape {
		for _, ring := range polygon {
			points += len(ring)
		}
	}
	edges := make([]edge, 0, points)
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
