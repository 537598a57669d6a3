package ground

import (
	"cmp"
	"errors"
	"slices"
)

// segment is a straight line between two points with a before b, and the
// rings it belongs to an odd number of times.
type segment struct {
	a, b  point
	rings []int32
	place int // in its ring, of a segment as drawn
}

func newSegment(p, q point, ring int32, place int) segment {
	if compare(p, q) > 0 {
		p, q = q, p
	}
	return segment{p, q, []int32{ring}, place}
}

func (s *segment) west() int64 { return min(s.a.x, s.b.x) }
func (s *segment) east() int64 { return max(s.a.x, s.b.x) }

// contact is how two segments meet.
type contact int

const (
	apart   contact = iota
	touches         // in an end of at least one of them
	shares          // along a stretch
	crosses         // in a point inside both
)

// meeting returns how two segments meet.
func meeting(s, t *segment) contact {
	if s.east() < t.west() || t.east() < s.west() || s.b.y < t.a.y || t.b.y < s.a.y {
		return apart
	}
	d1, d2 := turn(s.a, s.b, t.a), turn(s.a, s.b, t.b)
	if d1 == 0 && d2 == 0 {
		from, to := s.a, s.b // ordered along their line
		if compare(t.a, from) > 0 {
			from = t.a
		}
		if compare(t.b, to) < 0 {
			to = t.b
		}
		return [...]contact{shares, touches, apart}[compare(from, to)+1]
	}
	if d1*d2 > 0 {
		return apart
	}
	d3, d4 := turn(t.a, t.b, s.a), turn(t.a, t.b, s.b)
	switch {
	case d3*d4 > 0:
		return apart
	case d1*d2*d3*d4 == 0:
		return touches
	}
	return crosses
}

// mostTests is how many pairs of segments are looked at before a shape counts
// as a tangle: some ten seconds.
const mostTests = 1_000_000_000

// ErrTangled is returned for shapes whose lines would take too long to sort.
var ErrTangled = errors.New("the lines lie so thick across each other that they cannot be sorted out")

// pairs visits all pairs of segments that meet, once each, band by band of
// latitude.
func pairs(list []segment, visit func(i, j int, c contact)) error {
	index := newRows(list)
	tests := 0
	var active []int32
	for number, band := range index.bands {
		slices.SortFunc(band, func(i, j int32) int {
			return cmp.Or(cmp.Compare(list[i].west(), list[j].west()), cmp.Compare(i, j))
		})
		active = active[:0]
		for _, i := range band {
			s := &list[i]
			west, kept := s.west(), active[:0]
			for _, j := range active {
				t := &list[j]
				if t.east() < west {
					continue
				}
				kept = append(kept, j)
				// Where both lie in several bands, the first of these counts.
				if index.band(max(s.a.y, t.a.y)) != int64(number) {
					continue
				}
				if c := meeting(s, t); c != apart {
					visit(int(min(i, j)), int(max(i, j)), c)
				}
			}
			if tests += len(kept); tests > mostTests {
				return ErrTangled
			}
			active = append(kept, i)
		}
	}
	return nil
}
