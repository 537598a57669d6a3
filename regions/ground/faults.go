package ground

import "github.com/paulmach/orb"

// Faults is what was found in a shape.
type Faults struct {
	Crossed  bool // a ring crosses itself
	Touched  bool // a ring comes by one of its points again
	Doubled  bool // a ring runs a stretch twice: a spike, or a bridge to a hole
	HoleCut  bool // a hole crosses another ring of its polygon, or runs along it
	Outside  bool // a hole lies outside its polygon
	Nested   bool // a hole lies in another
	Overlaps bool // polygons lie over each other
}

// Any reports whether anything was found.
func (f Faults) Any() bool { return f != Faults{} }

// drawing is a shape on the lattice.
type drawing struct {
	rings    []ring
	segments []segment
	first    map[point]orb.Point // a position as it was written
}

// ring is a closed line; hole number 0 is the outline of its polygon.
type ring struct {
	polygon, hole int
	first, length int // of its segments
}

func newDrawing(shape orb.MultiPolygon) *drawing {
	d := &drawing{first: map[point]orb.Point{}}
	for p, polygon := range shape {
		for h, line := range polygon {
			r := ring{polygon: p, hole: h, first: len(d.segments)}
			number := int32(len(d.rings))
			var last point
			for i, position := range line {
				at := snapped(position)
				if _, known := d.first[at]; !known {
					d.first[at] = position
				}
				if i > 0 && at != last {
					d.segments = append(d.segments, newSegment(last, at, number, len(d.segments)-r.first))
				}
				last = at
			}
			r.length = len(d.segments) - r.first
			d.rings = append(d.rings, r)
		}
	}
	return d
}

// contacted tells whether rings come by points of themselves or of others,
// which may be nothing.
type contacted struct{ itself, another bool }

// contacts tells how the segments meet: what is wrong in any case, and what may
// be.
func (d *drawing) contacts() (f Faults, touching contacted, err error) {
	err = pairs(d.segments, func(i, j int, c contact) {
		s, t := &d.segments[i], &d.segments[j]
		r, o := d.rings[s.rings[0]], d.rings[t.rings[0]]
		same := s.rings[0] == t.rings[0]
		apart := t.place - s.place
		switch {
		case c == touches && same && (apart == 1 || apart == r.length-1): // one after the other
		case c == touches && same:
			touching.itself = true
		case c == touches:
			touching.another = true
		case same && c == crosses:
			f.Crossed = true
		case same:
			f.Doubled = true
		case r.polygon == o.polygon:
			f.HoleCut = true
		case c == crosses:
			f.Overlaps = true
		default: // polygons side by side, or one on the other
			touching.another = true
		}
	})
	return f, touching, err
}

// misplaced finds holes and polygons that lie where they mean nothing. It looks
// from the middle of a ring's first segment, and so is right where rings do not
// meet.
func (d *drawing) misplaced() Faults {
	var f Faults
	if len(d.rings) == 1 {
		return f
	}
	index, here := newRows(d.segments), newPlace(d)
	for number, r := range d.rings {
		if r.length == 0 {
			continue
		}
		here.clear()
		index.west(d.segments[r.first], r.first, here.pass)
		delete(here.odd, int32(number))
		here.settle()
		within := false
		for other := range here.odd {
			switch o := d.rings[other]; {
			case o.polygon != r.polygon:
				f.Overlaps = f.Overlaps || r.hole == 0 && o.hole == 0 && !here.holed[o.polygon]
			case o.hole == 0:
				within = true
			case r.hole > 0:
				f.Nested = true
			}
		}
		f.Outside = f.Outside || r.hole > 0 && !within
	}
	return f
}
