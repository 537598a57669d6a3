package polygons

import (
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"weekband/regions"
	"weekband/regions/arcs"
	"weekband/regions/ground"
)

// mender brings the polygons of one feature into order and notes what it did.
type mender struct {
	file, where string
	found       *findings
	anyWinding  bool // the format leaves the winding open, so turning is no finding
}

// mend appends a polygon to shape: closed, inside the world, of sound ground,
// wound as RFC 7946 3.1.6 says and cut at the antimeridian. A polygon whose
// outer ring goes takes its holes along.
func (m mender) mend(polygon orb.Polygon, shape *orb.MultiPolygon) error {
	out, err := m.rings(polygon)
	if err != nil || len(out) == 0 {
		return err
	}
	crosses, err := m.unroll(out)
	if err != nil {
		return err
	}
	mended, faults, err := ground.Mend(orb.MultiPolygon{out})
	if err != nil {
		return fmt.Errorf("%s: %s: %w; draw it anew or simplify it", m.file, m.where, err)
	}
	m.tell(faults)
	if len(mended) == 0 {
		m.found.add(m.where, "polygons without any ground were dropped")
	}
	for _, p := range mended {
		if p = m.wound(p, crosses || faults.Any()); !crosses {
			*shape = append(*shape, p)
			continue
		}
		*shape = append(*shape, cutAtAntimeridian(p)...)
	}
	return nil
}

// rings returns the rings that may have an area, closed. It is empty when the
// outer one has none.
func (m mender) rings(polygon orb.Polygon) (orb.Polygon, error) {
	var out orb.Polygon
	for i, ring := range polygon {
		if err := m.inWorld(ring); err != nil {
			return nil, err
		}
		if ring = m.closed(ring); len(ring) >= 4 {
			out = append(out, ring)
			continue
		}
		m.found.add(m.where, "rings of fewer than four positions were dropped, and holes with their polygon")
		if i == 0 {
			return nil, nil
		}
	}
	return out, nil
}

// tell notes what was wrong with the ground of a polygon.
func (m mender) tell(f ground.Faults) {
	for _, c := range []struct {
		found bool
		what  string
	}{
		{f.Crossed, "rings crossed themselves; ground that they surround an odd number of times was kept"},
		{f.Touched, "rings came by one of their corners again and were parted there"},
		{f.Doubled, "rings ran a stretch out and back; such spikes were cut off"},
		{f.HoleCut, "holes crossed another ring of their polygon or ran along it; ground outside all holes was kept"},
		{f.Outside, "holes outside their polygon were left out"},
		{f.Nested, "holes within holes were left out"},
		{f.Overlaps, "polygons of one region lay over each other and were united"},
	} {
		if c.found {
			m.found.add(m.where, c.what)
		}
	}
}

// unite makes one ground of the polygons of each region.
func unite(s *regions.Set, file string, found *findings) error {
	for i := range s.Regions {
		r := &s.Regions[i]
		if len(r.Shape) < 2 {
			continue
		}
		m := mender{file: file, where: place("region", i+1, r.ID), found: found}
		mended, faults, err := ground.Mend(r.Shape)
		if err != nil {
			return fmt.Errorf("%s: %s: %w; draw it anew or simplify it", m.file, m.where, err)
		}
		m.tell(faults)
		r.Shape, r.Bounds = mended, regions.BoundsOf(mended)
	}
	return nil
}

// edgeTol is how far past ±180 or ±90 degrees a coordinate may lie and still
// be taken for the edge itself: printed coordinates round.
const edgeTol = 1e-6

// inWorld refuses a ring that leaves the world, of which longitudes may run on
// to ±360, and moves a hair's breadth past its edge back onto it.
func (m mender) inWorld(ring orb.Ring) error {
	for i, p := range ring {
		if !(math.Abs(p[0]) <= 360+edgeTol && math.Abs(p[1]) <= 90+edgeTol) {
			return fmt.Errorf("%s: %s: position (%.7g, %.7g) is outside longitudes ±180 and latitudes ±90; %s",
				m.file, m.where, p[0], p[1], guess(p))
		}
		if math.Abs(p[0]) <= 180+edgeTol {
			p[0] = min(max(p[0], -180), 180)
		}
		ring[i] = orb.Point{p[0], min(max(p[1], -90), 90)}
	}
	return nil
}

// farthest is how far from its origin, in metres, the coordinates of a
// projection reach: half the equator, in round numbers, and a false origin.
const farthest = 4e7

// guess says what a position outside the world probably is.
func guess(p orb.Point) string {
	switch {
	case math.Abs(p[0]) <= 90 && math.Abs(p[1]) <= 180:
		return "latitude and longitude are probably swapped; write longitude first"
	case math.Abs(p[0]) <= farthest && math.Abs(p[1]) <= farthest:
		return "these look like projected metres or feet; reproject the file to longitude and latitude on WGS 84, such as with ogr2ogr -t_srs EPSG:4326"
	}
	return "no position on Earth; were they scaled or damaged? Want degrees"
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
// clockwise. quiet says that this is no finding.
func (m mender) wound(polygon orb.Polygon, quiet bool) orb.Polygon {
	for i, ring := range polygon {
		if (arcs.SignedArea(ring) > 0) != (i == 0) {
			slices.Reverse(ring)
			if !m.anyWinding && !quiet {
				m.found.add(m.where, "rings ran the wrong way round (RFC 7946 3.1.6) and were turned")
			}
		}
	}
	return polygon
}
