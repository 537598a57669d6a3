package regions

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
)

// jumps reports whether an edge spans more than half the world and so is
// meant to take the short way across the antimeridian. An edge from exactly
// −180° to exactly 180° is a side of a shape that spans the whole world.
func jumps(p, q orb.Point) bool {
	span := math.Abs(p[0] - q[0])
	return span > 180 && span < 360
}

func crossesAntimeridian(ring orb.Ring) bool {
	for i := 1; i < len(ring); i++ {
		if jumps(ring[i-1], ring[i]) {
			return true
		}
	}
	return false
}

// cutAtAntimeridian splits a polygon, whose edges are all meant the short way
// round, into parts that lie between −180° and 180°.
func cutAtAntimeridian(polygon orb.Polygon) (orb.MultiPolygon, error) {
	var west, east []orb.Ring
	anchor := 0.0
	for i, ring := range polygon {
		line, err := unrolled(ring)
		if err != nil {
			return nil, err
		}
		bound := line.Bound()
		if i == 0 {
			anchor = bound.Center()[0]
		}
		turn := float64(360 * math.Round((anchor-bound.Center()[0])/360)) // holes follow the outer ring
		for j := range line {
			line[j][0] += turn
		}
		if (signedArea(line) > 0) != (i == 0) {
			slices.Reverse(line)
		}
		polygon[i] = line
	}
	// After unrolling, the outer ring lies around one of these two lines.
	meridian := 180.0
	if anchor < 0 {
		meridian = -180
	}
	west, east = splitRings(polygon, meridian)
	shift(west, -math.Copysign(180, meridian)+180)
	shift(east, -math.Copysign(180, meridian)-180)
	low, _ := arcs.Nest(west)
	high, _ := arcs.Nest(east)
	return append(low, high...), nil
}

// shift moves rings along the parallel by whole turns, in place.
func shift(rings []orb.Ring, degrees float64) {
	for _, ring := range rings {
		for i := range ring {
			ring[i][0] = min(max(ring[i][0]+degrees, -180), 180)
		}
	}
}

// unrolled returns the ring with longitudes that run on past ±180.
func unrolled(ring orb.Ring) (orb.Ring, error) {
	out := slices.Clone(ring)
	for i := 1; i < len(out); i++ {
		step := ring[i][0] - ring[i-1][0]
		if jumps(ring[i-1], ring[i]) {
			step -= math.Copysign(360, step)
		}
		out[i][0] = out[i-1][0] + step
	}
	last := len(out) - 1
	if math.Abs(out[last][0]-out[0][0]) > 180 {
		return nil, errors.New("a ring goes round the pole; split it at longitude 180 and close it along the pole")
	}
	out[last] = out[0]
	return out, nil
}

// splitRings cuts rings (outer counter-clockwise, holes clockwise) along a
// meridian into the rings of the parts to the west and to the east of it.
// Positions on the meridian count as east of it.
func splitRings(rings []orb.Ring, lon float64) (west, east []orb.Ring) {
	sides := [2]splitter{{}, {}}
	for _, ring := range rings {
		points := ring[:len(ring)-1]
		start := 0
		for start < len(points) && side(points[start], lon) == side(points[(start+len(points)-1)%len(points)], lon) {
			start++
		}
		if start == len(points) {
			s := side(points[0], lon)
			sides[s].rings = append(sides[s].rings, ring)
			continue
		}
		var chain orb.LineString
		for i := range len(points) + 1 {
			p, q := points[(start+i+len(points)-1)%len(points)], points[(start+i)%len(points)]
			if side(p, lon) != side(q, lon) {
				at := orb.Point{lon, p[1] + float64((lon-p[0])/(q[0]-p[0])*(q[1]-p[1]))}
				if len(chain) > 0 {
					sides[side(p, lon)].chains = append(sides[side(p, lon)].chains, append(chain, at))
				}
				chain = orb.LineString{at}
			}
			chain = append(chain, q)
		}
	}
	return sides[0].close(), sides[1].close()
}

func side(p orb.Point, lon float64) int {
	if p[0] < lon {
		return 0
	}
	return 1
}

// splitter closes the chains left on one side of a cut.
type splitter struct {
	rings  []orb.Ring
	chains []orb.LineString // from cut to cut
}

// close joins the chains along the cut. Sorted by latitude, the ends pair up:
// between the first and the second the polygon continues, between the second
// and the third it does not.
func (s splitter) close() []orb.Ring {
	type end struct {
		chain int
		first bool
		lat   float64
	}
	var ends []end
	for i, c := range s.chains {
		ends = append(ends, end{i, true, c[0][1]}, end{i, false, c[len(c)-1][1]})
	}
	slices.SortStableFunc(ends, func(a, b end) int { return cmp.Compare(a.lat, b.lat) })
	follow := make([]int, len(s.chains))
	for i := 0; i+1 < len(ends); i += 2 {
		a, b := ends[i], ends[i+1]
		if a.first {
			a, b = b, a
		}
		follow[a.chain] = b.chain
	}
	used := make([]bool, len(s.chains))
	rings := s.rings
	for i := range s.chains {
		var ring orb.Ring
		for c := i; !used[c]; c = follow[c] {
			used[c] = true
			ring = append(ring, s.chains[c]...)
		}
		if len(ring) == 0 {
			continue
		}
		ring = slices.Compact(append(ring, ring[0]))
		if len(ring) >= 4 && signedArea(ring) != 0 {
			rings = append(rings, ring)
		}
	}
	return rings
}
