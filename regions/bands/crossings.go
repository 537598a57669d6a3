package bands

import "github.com/paulmach/orb"

// gap is the least distance, as a part of a triangle edge, between two
// crossings on it and between a crossing and its ends. It makes every line
// meet edges between their ends, so there are no special cases: a contour
// that should run through a corner runs past it at a five-hundredth of a cell.
const gap = 1.0 / 512

// cross makes the nodes where contours cross the triangle edge between two
// points with the given days and bands, and returns the edge, -1 when no
// contour does. An edge must always be given the same way round.
func (t *tracer) cross(from, to orb.Point, dayFrom, dayTo float64, bandFrom, bandTo int16) int32 {
	if bandFrom == bandTo {
		return -1
	}
	e := meshEdge{from: from, to: to, first: int32(len(t.nodes)), level: int32(bandFrom), step: 1}
	n := int32(bandTo - bandFrom)
	if n < 0 {
		n, e.level, e.step = -n, int32(bandFrom)-1, -1
	}
	e.last = e.first + n
	id := int32(len(t.edges))
	t.edges = append(t.edges, e)
	for i := range n {
		at := (t.breaks[e.level+i*e.step] - dayFrom) / (dayTo - dayFrom)
		t.nodes = append(t.nodes, node{edge: id, t: at})
	}
	t.spread(e)
	for i := e.first; i < e.last; i++ {
		t.nodes[i].at = e.point(t.nodes[i].t)
	}
	return id
}

// spread moves the crossings of an edge apart and away from its ends.
func (t *tracer) spread(e meshEdge) {
	least := e.gap()
	low := 0.0
	for i := e.first; i < e.last; i++ {
		low = max(t.nodes[i].t, low+least)
		t.nodes[i].t = low
	}
	high := 1.0
	for i := e.last - 1; i >= e.first; i-- {
		high = min(t.nodes[i].t, high-least)
		t.nodes[i].t = high
	}
}

func (e meshEdge) gap() float64 { return min(gap, 1/float64(e.last-e.first+1)) }

func (e meshEdge) point(t float64) orb.Point {
	return orb.Point{e.from[0] + float64(t*(e.to[0]-e.from[0])), e.from[1] + float64(t*(e.to[1]-e.from[1]))}
}

// at returns the node where a level crosses an edge.
func (t *tracer) at(edge int32, level int16) int32 {
	e := &t.edges[edge]
	return e.first + (int32(level)-e.level)*e.step
}
