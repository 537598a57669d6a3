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
	var b []bead
	var moved []float64
	for _, a := range arcs {
		if t.nodes[a.nodes[len(a.nodes)/2]].edge < 0 || len(a.nodes) < 3 {
			continue
		}
		b = t.thread(a, b[:0])
		for pass := range 2 * passes {
			factor := 0.5
			if pass%2 == 1 {
				factor = -0.52
			}
			moved = targets(b, a.closed(), factor, moved[:0])
			for i, at := range moved {
				b[i].slide(at)
			}
			if a.closed() {
				b[len(b)-1].at = b[0].at
			}
		}
		for i, id := range a.nodes[:len(b)-1] {
			t.nodes[id].t, t.nodes[id].at = b[i].t, b[i].at
		}
	}
}

// bead is a node of an arc with all that its sliding needs, side by side in
// memory. Other nodes of its edge belong to other levels, and so to other arcs:
// while one arc is smoothed they stay where they are.
type bead struct {
	at        orb.Point
	t         float64
	from, to  orb.Point // of the edge
	low, high float64   // between which t may move
	fixed     bool
}

// thread returns the nodes of an arc as beads.
func (t *tracer) thread(a arc, into []bead) []bead {
	for _, id := range a.nodes {
		n := t.nodes[id]
		b := bead{at: n.at, t: n.t, fixed: true}
		if n.edge >= 0 {
			e := t.edges[n.edge]
			b.from, b.to = e.from, e.to
			b.low, b.high = t.room(id, e)
			b.fixed = b.low > b.high
		}
		into = append(into, b)
	}
	return into
}

// room returns between which places along its edge a node may lie, low above
// high for none.
func (t *tracer) room(id int32, e meshEdge) (low, high float64) {
	high = 1
	if id > e.first {
		low = t.nodes[id-1].t
	}
	if id+1 < e.last {
		high = t.nodes[id+1].t
	}
	least := e.gap()
	return low + least, high - least
}

// targets returns where along its edge each node but the last should go. The
// first node of a closed arc moves too; that of an open one stays.
func targets(b []bead, closed bool, factor float64, into []float64) []float64 {
	last := len(b) - 1
	before := b[last-1].at
	for i := range b[:last] {
		n := &b[i]
		if n.fixed || i == 0 && !closed {
			into = append(into, n.t)
		} else {
			into = append(into, n.t+float64(factor*(n.meet(before, b[i+1].at)-n.t)))
		}
		before = n.at
	}
	return into
}

// meet returns where along its edge the line through p and q meets it; where
// the bead is when they run nearly alike, and an end when they meet off the
// edge.
func (n *bead) meet(p, q orb.Point) float64 {
	dx, dy := q[0]-p[0], q[1]-p[1]
	ex, ey := n.to[0]-n.from[0], n.to[1]-n.from[1]
	denominator := float64(ex*dy) - float64(ey*dx)
	if denominator*denominator < 0.01*(float64(dx*dx)+float64(dy*dy))*(float64(ex*ex)+float64(ey*ey)) { // under 6°
		return n.t
	}
	at := (float64((p[0]-n.from[0])*dy) - float64((p[1]-n.from[1])*dx)) / denominator
	return min(max(at, 0), 1)
}

// slide moves a node along its edge as far towards at as there is room.
func (n *bead) slide(at float64) {
	if n.fixed {
		return
	}
	n.t = min(max(at, n.low), n.high)
	n.at = orb.Point{n.from[0] + float64(n.t*(n.to[0]-n.from[0])), n.from[1] + float64(n.t*(n.to[1]-n.from[1]))}
}
