package arcs

import (
	"cmp"
	"math"
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
	var outers []*outer
	var holes []orb.Ring
	for _, ring := range rings {
		switch area := SignedArea(ring); {
		case area > 0:
			outers = append(outers, &outer{polygon: len(shape), ring: ring, bound: ring.Bound(), area: area})
			shape = append(shape, orb.Polygon{ring})
		case area < 0:
			holes = append(holes, ring)
		}
	}
	slices.SortStableFunc(outers, func(a, b *outer) int { return cmp.Compare(a.area, b.area) })
	for _, hole := range holes {
		p := midLongest(hole)
		i := slices.IndexFunc(outers, func(o *outer) bool { return o.holds(p) })
		if i < 0 {
			stray++
			continue
		}
		at := outers[i].polygon
		shape[at] = append(shape[at], hole)
	}
	return shape, stray
}

// midLongest returns the middle of a ring's longest edge. Unlike a vertex it
// is never on another ring.
func midLongest(ring orb.Ring) orb.Point {
	var mid orb.Point
	best := -1.0
	for i := 1; i < len(ring); i++ {
		a, b := ring[i-1], ring[i]
		if length := math.Hypot(b[0]-a[0], b[1]-a[1]); length > best {
			best, mid = length, orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
		}
	}
	return mid
}

// outer is an outer ring that answers point queries. Its edges are sorted
// into levels of y at the first question.
type outer struct {
	polygon int
	ring    orb.Ring
	bound   orb.Bound
	area    float64
	levels  [][]int32 // edges i, i+1 that touch the level
}

func (o *outer) level(y float64) int {
	n := len(o.levels)
	at := (y - o.bound.Min[1]) / (o.bound.Max[1] - o.bound.Min[1]) * float64(n)
	return min(max(int(at), 0), n-1)
}

// holds reports whether p lies inside the ring, by counting the edges to the
// east of it.
func (o *outer) holds(p orb.Point) bool {
	if !o.bound.Contains(p) {
		return false
	}
	if o.levels == nil {
		o.levels = make([][]int32, len(o.ring)/8+1)
		for i := 1; i < len(o.ring); i++ {
			a, b := o.level(o.ring[i-1][1]), o.level(o.ring[i][1])
			for l := min(a, b); l <= max(a, b); l++ {
				o.levels[l] = append(o.levels[l], int32(i-1))
			}
		}
	}
	inside := false
	for _, i := range o.levels[o.level(p[1])] {
		a, b := o.ring[i], o.ring[i+1]
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
