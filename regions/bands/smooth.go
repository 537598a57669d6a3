package bands

import "github.com/paulmach/orb"

// smooth evens out contours. Nodes slide along the triangle edges they lie
// on, keep their order there and their distance from each other and from the
// ends, so that lines pass the same triangles in the same order as before and
// cannot cross. Ends of arcs and corners of cells stay.
//
// Passes alternate between moving towards the chord of the two neighbours
// and a little less far back again (Taubin 1995), which takes out the zigzag
// and leaves the size of rings alone.
func (t *tracer) smooth(arcs []arc, passes int) {
	var moved []float64
	for _, a := range arcs {
		if t.nodes[a.nodes[len(a.nodes)/2]].edge < 0 || len(a.nodes) < 3 {
			continue
		}
		for pass := range 2 * passes {
			factor := 0.5
			if pass%2 == 1 {
				factor = -0.52
			}
			moved = t.targets(a, factor, moved[:0])
			for i, at := range moved {
				if n := a.nodes[i]; t.nodes[n].edge >= 0 {
					t.slide(n, at)
				}
			}
		}
	}
}

// targets returns where along its edge each node but the last should go. The
// first node of a closed arc moves too; that of an open one stays.
func (t *tracer) targets(a arc, factor float64, into []float64) []float64 {
	last := len(a.nodes) - 1
	closed := a.first() == a.last()
	for i, id := range a.nodes[:last] {
		n := t.nodes[id]
		switch {
		case n.edge < 0 || i == 0 && !closed:
			into = append(into, n.t)
			continue
		}
		before := a.nodes[max(i, 1)-1]
		if i == 0 {
			before = a.nodes[last-1]
		}
		chord := t.edges[n.edge].meet(t.nodes[before].at, t.nodes[a.nodes[i+1]].at, n.t)
		into = append(into, n.t+float64(factor*(chord-n.t)))
	}
	return into
}

// meet returns where along the edge the line through p and q meets it, old
// when they run nearly alike or meet off the edge by more than its length.
func (e meshEdge) meet(p, q orb.Point, old float64) float64 {
	dx, dy := q[0]-p[0], q[1]-p[1]
	ex, ey := e.to[0]-e.from[0], e.to[1]-e.from[1]
	denominator := float64(ex*dy) - float64(ey*dx)
	if denominator*denominator < 0.01*(float64(dx*dx)+float64(dy*dy))*(float64(ex*ex)+float64(ey*ey)) { // under 6°
		return old
	}
	at := (float64((p[0]-e.from[0])*dy) - float64((p[1]-e.from[1])*dx)) / denominator
	return min(max(at, 0), 1)
}

// slide moves a node along its edge as far towards at as its neighbours
// there and the ends allow.
func (t *tracer) slide(id int32, at float64) {
	n := &t.nodes[id]
	e := t.edges[n.edge]
	low, high := 0.0, 1.0
	if id > e.first {
		low = t.nodes[id-1].t
	}
	if id+1 < e.last {
		high = t.nodes[id+1].t
	}
	least := e.gap()
	if low+least > high-least { // no room
		return
	}
	n.t = min(max(at, low+least), high-least)
	n.at = e.point(n.t)
}
