package polygons

import (
	"cmp"
	"errors"
	"fmt"
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

// unroll finds out whether a polygon crosses the antimeridian, by edges of
// more than half the world or by longitudes past ±180°, and if so makes its
// longitudes run on, in place: from somewhere in ±180° for the middle of the
// outer ring, and about there for holes.
func (m mender) unroll(polygon orb.Polygon) (crosses bool, err error) {
	jumping, beyond := false, false
	for _, ring := range polygon {
		for i := 1; i < len(ring); i++ {
			jumping = jumping || jumps(ring[i-1], ring[i])
			beyond = beyond || math.Abs(ring[i][0]) > 180
		}
	}
	switch {
	case beyond:
		m.found.add(m.where, "polygons with longitudes beyond ±180° were turned by 360°, and cut at the antimeridian where they cross it")
	case jumping:
		m.found.add(m.where, "polygons with an edge of more than 180° of longitude were taken to cross the antimeridian and cut there")
	default:
		return false, nil
	}
	anchor := 0.0
	for i, ring := range polygon {
		line, err := unrolled(ring)
		if err != nil {
			return true, fmt.Errorf("%s: %s: %w", m.file, m.where, err)
		}
		middle := line.Bound().Center()[0]
		turn := float64(360 * math.Round((anchor-middle)/360))
		if i == 0 {
			anchor = middle + turn
		}
		for j := range line {
			line[j][0] += turn
		}
		polygon[i] = line
	}
	return true, nil
}

// cutAtAntimeridian splits a polygon whose longitudes run on, by less than a
// turn, into parts that lie between −180° and 180°. Rings run as those of
// regions.
func cutAtAntimeridian(polygon orb.Polygon) orb.MultiPolygon {
	var out orb.MultiPolygon
	rest := []orb.Ring(polygon)
	for _, meridian := range []float64{-180, 180} {
		west, east := splitRings(rest, meridian)
		if meridian < 0 {
			shift(west, 360)
			low, _ := arcs.Nest(west)
			out, rest = append(out, low...), east
			continue
		}
		shift(west, 0)
		shift(east, -360)
		middle, _ := arcs.Nest(west)
		high, _ := arcs.Nest(east)
		out = append(append(out, middle...), high...)
	}
	return out
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
		if len(ring) >= 4 && arcs.SignedArea(ring) != 0 {
			rings = append(rings, ring)
		}
	}
	return rings
}
