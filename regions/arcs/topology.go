package arcs

import (
	"github.com/paulmach/orb"
)

// Topology is a list of shapes whose rings are made of shared lines.
type Topology struct {
	// Lines are the arcs. Each appears once. A line whose ends are equal is a
	// whole ring, or leaves a junction and comes back to it.
	Lines []orb.LineString
	// shapes[s][p][r] lists the arcs of ring r of polygon p of shape s, in
	// order; ^i is line i run backwards.
	shapes [][][][]int32
}

// Shapes returns the shapes the topology stands for, in the order they were
// given to Build, with the lines as they are now. Every ring is closed.
func (t *Topology) Shapes() []orb.MultiPolygon {
	out := make([]orb.MultiPolygon, len(t.shapes))
	for s, polygons := range t.shapes {
		shape := make(orb.MultiPolygon, len(polygons))
		for p, rings := range polygons {
			shape[p] = make(orb.Polygon, len(rings))
			for r, refs := range rings {
				shape[p][r] = t.ring(refs)
			}
		}
		out[s] = shape
	}
	return out
}

// ring joins arcs end to end.
func (t *Topology) ring(refs []int32) orb.Ring {
	var ring orb.Ring
	for _, ref := range refs {
		line := t.Lines[max(ref, ^ref)]
		if ref < 0 {
			line = reversed(line)
		}
		if len(ring) > 0 {
			line = line[1:]
		}
		ring = append(ring, line...)
	}
	return ring
}

// Inner returns the lines that bound two or more of the shapes: the borders
// between neighbours. A line that a shape runs along and back again does not
// bound it.
func (t *Topology) Inner() []orb.LineString {
	return t.linesUsed(func(uses int) bool { return uses > 1 })
}

// Outer returns the lines that bound exactly one shape: the outline of all
// shapes together, plus borders whose two sides do not share vertices.
func (t *Topology) Outer() []orb.LineString {
	return t.linesUsed(func(uses int) bool { return uses == 1 })
}

func (t *Topology) linesUsed(want func(uses int) bool) []orb.LineString {
	var out []orb.LineString
	for i, sides := range t.Sides() {
		if want(len(sides)) {
			out = append(out, t.Lines[i])
		}
	}
	return out
}

// Simplify drops vertices from the lines, the least visible first, as Thin
// does with the same tolerance for every line.
func (t *Topology) Simplify(tol float64) {
	Thin(t.Lines, func(int) float64 { return tol })
}
