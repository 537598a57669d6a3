package arcs

import (
	"math"

	"github.com/paulmach/orb"
)

// SignedArea returns the planar area of a closed ring in squared coordinate
// units, positive when it runs counter-clockwise. It is computed about the
// ring's first vertex, so that small rings far from the origin keep their
// digits.
func SignedArea(ring orb.Ring) float64 {
	if len(ring) < 4 {
		return 0
	}
	sum, o := 0.0, ring[0]
	for i := 1; i+1 < len(ring); i++ {
		sum += cross(o, ring[i], ring[i+1])
	}
	return sum / 2
}

// Area returns the planar area of a shape in squared coordinate units: outer
// rings less holes, whatever way they run.
func Area(shape orb.MultiPolygon) float64 {
	sum := 0.0
	for _, polygon := range shape {
		for i, ring := range polygon {
			if i == 0 {
				sum += math.Abs(SignedArea(ring))
			} else {
				sum -= math.Abs(SignedArea(ring))
			}
		}
	}
	return sum
}

// cross is twice the signed area of the triangle a, b, c.
func cross(a, b, c orb.Point) float64 {
	return float64((b[0]-a[0])*(c[1]-a[1])) - float64((b[1]-a[1])*(c[0]-a[0]))
}

func reversed(line orb.LineString) orb.LineString {
	out := make(orb.LineString, len(line))
	for i, p := range line {
		out[len(line)-1-i] = p
	}
	return out
}
