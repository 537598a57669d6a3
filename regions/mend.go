package regions

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
)

// mender brings the polygons of one feature into order and notes what it did.
type mender struct {
	file, where string
	found       *findings
	anyWinding  bool // the format leaves the winding open, so turning is no finding
}

func signedArea(ring orb.Ring) float64 { return arcs.SignedArea(ring) }

// mend appends a polygon to shape: closed, inside the world, without repeated
// positions and rings without area, wound as RFC 7946 3.1.6 says and cut at
// the antimeridian. A polygon whose outer ring goes takes its holes along.
func (m mender) mend(polygon orb.Polygon, shape *orb.MultiPolygon) error {
	var out orb.Polygon
	crosses := false
	for i, ring := range polygon {
		if err := m.inWorld(ring); err != nil {
			return err
		}
		ring = m.closed(ring)
		jumping := crossesAntimeridian(ring) // its area means nothing before it is cut
		crosses = crosses || jumping
		if len(ring) < 4 || !jumping && signedArea(ring) == 0 {
			m.found.add(m.where, "rings without area were dropped")
			if i == 0 {
				return nil
			}
			continue
		}
		out = append(out, ring)
	}
	if len(out) == 0 {
		return nil
	}
	if !crosses {
		*shape = append(*shape, m.wound(out))
		return nil
	}
	m.found.add(m.where, "polygons with an edge of more than 180° of longitude were taken to cross the antimeridian and cut there")
	parts, err := cutAtAntimeridian(out)
	if err != nil {
		return fmt.Errorf("%s: %s: %w", m.file, m.where, err)
	}
	*shape = append(*shape, parts...)
	return nil
}

// edgeTol is how far past ±180 or ±90 degrees a coordinate may lie and still
// be taken for the edge itself: printed coordinates round.
const edgeTol = 1e-6

// inWorld refuses a ring that leaves the world and moves a hair's breadth
// past its edge back onto it.
func (m mender) inWorld(ring orb.Ring) error {
	for i, p := range ring {
		if math.Abs(p[0]) > 180+edgeTol || math.Abs(p[1]) > 90+edgeTol {
			return fmt.Errorf("%s: %s: position (%.7g, %.7g) is outside longitudes ±180 and latitudes ±90; %s",
				m.file, m.where, p[0], p[1], guess(p))
		}
		ring[i] = orb.Point{min(max(p[0], -180), 180), min(max(p[1], -90), 90)}
	}
	return nil
}

// guess says what a position outside the world probably is.
func guess(p orb.Point) string {
	switch {
	case math.Abs(p[0]) <= 90 && math.Abs(p[1]) <= 180:
		return "latitude and longitude are probably swapped; write longitude first"
	case math.Abs(p[0]) <= 360 && math.Abs(p[1]) <= 90:
		return "longitudes probably run from 0 to 360; write them as -180 to 180"
	}
	return "these are probably projected metres or feet; convert the file to longitude and latitude on WGS 84"
}

// closed returns the ring with its first position at its end and no position
// twice in a row.
func (m mender) closed(ring orb.Ring) orb.Ring {
	n := len(ring)
	if n > 0 && ring[0] != ring[n-1] {
		m.found.add(m.where, "rings were not closed and have been")
		ring = append(slices.Clone(ring), ring[0])
	}
	out := slices.Compact(ring)
	for range len(ring) - len(out) {
		m.found.add(m.where, "positions repeated the one before and were dropped")
	}
	return out
}

// wound turns rings so that the outer one runs counter-clockwise and holes
// clockwise.
func (m mender) wound(polygon orb.Polygon) orb.Polygon {
	for i, ring := range polygon {
		if (signedArea(ring) > 0) != (i == 0) {
			slices.Reverse(ring)
			if !m.anyWinding {
				m.found.add(m.where, "rings ran the wrong way round (RFC 7946 3.1.6) and were turned")
			}
		}
	}
	return polygon
}
