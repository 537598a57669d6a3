package regions

import (
	"math"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/regions/arcs"
)

// Area returns the area of a shape on the WGS 84 ellipsoid in km². Edges are
// straight lines in longitude and latitude. Holes count against it; where
// parts overlap the ground counts twice.
func Area(shape orb.MultiPolygon) float64 {
	return integrate(shape, func(p, q orb.Point) float64 { return edgeArea(p, q) })
}

// AreaWithin returns the area in km² of the part of a shape that lies in the
// box.
//
// Moving every point outside the box to the nearest point of the box leaves
// the winding number about every inner point as it was, so the moved outline
// encloses exactly the part wanted.
func AreaWithin(shape orb.MultiPolygon, box grid.Box) float64 {
	return integrate(shape, func(p, q orb.Point) float64 { return clampedArea(p, q, box) })
}

// integrate sums edge over the rings as if outer rings ran counter-clockwise
// and holes clockwise.
func integrate(shape orb.MultiPolygon, edge func(p, q orb.Point) float64) float64 {
	total := 0.0
	for _, polygon := range shape {
		for i, ring := range polygon {
			sum := 0.0
			for j := 1; j < len(ring); j++ {
				sum += edge(ring[j-1], ring[j])
			}
			if (arcs.SignedArea(ring) < 0) == (i == 0) {
				sum = -sum
			}
			total += sum
		}
	}
	return total
}

// zone returns the area in km² between the equator and a latitude for one
// degree of longitude, negative to the south.
func zone(lat float64) float64 { return grid.Box{East: 1, North: lat}.Area() }

// gauss holds the nodes and weights of four-point Gauss–Legendre quadrature
// on [0, 1]. Abramowitz & Stegun 1964, table 25.4.
var gauss = [4]struct{ at, weight float64 }{
	{(1 - 0.8611363115940526) / 2, 0.3478548451374538 / 2},
	{(1 - 0.3399810435848563) / 2, 0.6521451548625461 / 2},
	{(1 + 0.3399810435848563) / 2, 0.6521451548625461 / 2},
	{(1 + 0.8611363115940526) / 2, 0.3478548451374538 / 2},
}

// edgeArea returns the part of the area integral −∮ Z(φ) dλ that one edge
// contributes. Edges are taken in pieces of at most 5° of latitude, for which
// four nodes leave a relative error under 1e-12.
func edgeArea(p, q orb.Point) float64 {
	dlon, dlat := q[0]-p[0], q[1]-p[1]
	switch {
	case dlon == 0:
		return 0
	case dlat == 0:
		return -dlon * zone(p[1])
	}
	pieces := math.Ceil(math.Abs(dlat) / 5)
	sum := 0.0
	for i := range int(pieces) {
		for _, g := range gauss {
			sum += float64(g.weight * zone(p[1]+dlat*(float64(i)+g.at)/pieces))
		}
	}
	return -dlon / pieces * sum
}

// clampedArea is edgeArea of an edge moved into the box: it is cut where it
// passes the lines of the box, and each piece is moved by its ends.
func clampedArea(p, q orb.Point, box grid.Box) float64 {
	cuts := [6]float64{0, 1}
	n := 2
	cut := func(from, to, line float64) {
		if (from < line) != (to < line) && from != line {
			if t := (line - from) / (to - from); t > 0 && t < 1 {
				cuts[n], n = t, n+1
			}
		}
	}
	cut(p[0], q[0], box.West)
	cut(p[0], q[0], box.East)
	cut(p[1], q[1], box.South)
	cut(p[1], q[1], box.North)
	for i := 2; i < n; i++ { // insertion sort of at most four
		for j := i; j > 0 && cuts[j] < cuts[j-1]; j-- {
			cuts[j], cuts[j-1] = cuts[j-1], cuts[j]
		}
	}
	sum, from := 0.0, clamp(p, box)
	for _, t := range cuts[1:n] {
		to := clamp(q, box)
		if t < 1 {
			to = clamp(orb.Point{p[0] + float64(t*(q[0]-p[0])), p[1] + float64(t*(q[1]-p[1]))}, box)
		}
		sum += edgeArea(from, to)
		from = to
	}
	return sum
}

func clamp(p orb.Point, box grid.Box) orb.Point {
	return orb.Point{
		min(max(p[0], box.West), box.East),
		min(max(p[1], box.South), box.North),
	}
}
