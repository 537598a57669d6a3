package arcs

import (
	"cmp"
	"slices"

	"github.com/paulmach/orb"
)

// Nest sorts rings that do not cross into polygons: counter-clockwise rings
// are outer, clockwise ones are holes and go into the smallest outer ring
// that holds them. Rings may touch at points but not along edges. Polygons
// keep the order of their outer rings, holes that of the input. Rings without
// area are left out, and so are holes that no outer ring holds; their number
// is returned.
func Nest(rings []orb.Ring) (shape orb.MultiPolygon, stray int) {
	n := newNester(rings)
	for i, ring := range rings {
		if n.area[i] > 0 {
			n.polygon[i] = len(shape)
			shape = append(shape, orb.Polygon{ring})
		}
	}
	for i, ring := range rings {
		if n.area[i] >= 0 {
			continue
		}
		if outer := n.outerOf(i); outer >= 0 {
			at := n.polygon[outer]
			shape[at] = append(shape[at], ring)
		} else {
			stray++
		}
	}
	return shape, stray
}

// nester finds the outer ring of each hole. From the hole's westernmost
// vertex it looks west, across the ground the hole is cut from, to the ring
// that bounds this ground there: that is the outer ring, or another hole of
// the same polygon that lies further west.
type nester struct {
	rings   []orb.Ring
	area    []float64
	polygon []int
	outer   []int // of a hole, once known; unknown before
	index   *edgeIndex
}

const (
	unknown = -2
	none    = -1
)

func newNester(rings []orb.Ring) *nester {
	n := &nester{
		rings: rings, area: make([]float64, len(rings)),
		polygon: make([]int, len(rings)), outer: make([]int, len(rings)),
	}
	holes := false
	for i, ring := range rings {
		n.area[i], n.outer[i] = SignedArea(ring), unknown
		holes = holes || n.area[i] < 0
	}
	if holes {
		n.index = newEdgeIndex(rings, n.area)
	}
	return n
}

// outerOf returns the number of the smallest outer ring that holds a hole,
// or none.
func (n *nester) outerOf(hole int) int {
	var chain []int
	found := unknown
	for at := hole; found == unknown; {
		if n.outer[at] != unknown {
			found = n.outer[at]
			break
		}
		chain = append(chain, at)
		p, edge := westTip(n.rings[at])
		ring, ok := n.index.west(p, at, edge)
		switch {
		case !ok || slices.Contains(chain, ring): // no ground there, or a tip so thin that it sees itself
			found = n.search(at, p)
		case n.area[ring] > 0:
			found = ring
		default:
			at = ring
		}
	}
	for _, h := range chain {
		n.outer[h] = found
	}
	return found
}

// westTip returns a point close to the westernmost vertex of a clockwise
// ring, on an edge that has the ground outside the ring to its west, and the
// number of that edge.
func westTip(ring orb.Ring) (p orb.Point, edge int) {
	points := ring[:len(ring)-1]
	tip := 0
	for i, q := range points {
		if q[0] < points[tip][0] {
			tip = i
		}
	}
	before := (tip + len(points) - 1) % len(points)
	v, u, w := points[tip], points[before], points[(tip+1)%len(points)]
	const near = 0.0041421 // an odd number: no other vertex has this latitude
	if w[1] > v[1] {
		return orb.Point{v[0] + float64(near*(w[0]-v[0])), v[1] + float64(near*(w[1]-v[1]))}, tip
	}
	return orb.Point{v[0] + float64(near*(u[0]-v[0])), v[1] + float64(near*(u[1]-v[1]))}, before
}

// search looks through all outer rings for the smallest that holds p.
func (n *nester) search(hole int, p orb.Point) int {
	best := none
	for i, ring := range n.rings {
		if n.area[i] > -n.area[hole] && (best == none || cmp.Less(n.area[i], n.area[best])) && holds(ring, p) {
			best = i
		}
	}
	return best
}

// holds reports whether p lies inside a ring, by counting the edges to the
// east of it.
func holds(ring orb.Ring, p orb.Point) bool {
	inside := false
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if (a[1] > p[1]) == (b[1] > p[1]) {
			continue
		}
		if a[1] > b[1] {
			a, b = b, a
		}
		if cross(a, b, p) > 0 { // p lies west of the rising edge
			inside = !inside
		}
	}
	return inside
}
