package ground

import (
	"cmp"
	"slices"
)

// mostRounds is how often segments are split before a shape counts as a
// tangle. Rounding a crossing to the lattice may move a line across a point
// beside it; two or three rounds settle that.
const mostRounds = 12

// mostCrossings is how many crossings are split in one round: some seconds.
const mostCrossings = 100_000

// split returns segments of the same rings that meet in common ends only,
// each once, in order. Stretches that a ring runs an even number of times
// belong to it no longer.
func split(list []segment) ([]segment, error) {
	for range mostRounds {
		list = distinct(list)
		cuts := make([][]point, len(list))
		crossed := 0
		err := pairs(list, func(i, j int, c contact) {
			if c == crosses {
				if crossed++; crossed > mostCrossings {
					return
				}
				p := crossing(&list[i], &list[j])
				cuts[i], cuts[j] = append(cuts[i], p), append(cuts[j], p)
				return
			}
			for _, k := range [2][2]int{{i, j}, {j, i}} {
				for _, p := range [2]point{list[k[1]].a, list[k[1]].b} {
					if list[k[0]].through(p) {
						cuts[k[0]] = append(cuts[k[0]], p)
					}
				}
			}
		})
		if err != nil {
			return nil, err
		}
		if crossed > mostCrossings {
			return nil, ErrTangled
		}
		var out []segment
		cut := false
		for i, s := range list {
			out = append(out, s.cut(cuts[i])...)
			cut = cut || len(cuts[i]) > 0
		}
		if !cut {
			return list, nil
		}
		list = out
	}
	return nil, ErrTangled
}

// through reports whether a point lies on the segment and is none of its ends.
func (s segment) through(p point) bool {
	return p != s.a && p != s.b && compare(p, s.a) > 0 && compare(p, s.b) < 0 && turn(s.a, s.b, p) == 0
}

// cut returns the pieces between the points, in order from a.
func (s segment) cut(at []point) []segment {
	if len(at) == 0 {
		return []segment{s}
	}
	// By how far along: a rounded point may lie a step beside the line.
	dx, dy := float64(s.b.x-s.a.x), float64(s.b.y-s.a.y)
	along := func(p point) float64 { return float64(float64(p.x-s.a.x)*dx) + float64(float64(p.y-s.a.y)*dy) }
	slices.SortFunc(at, func(p, q point) int { return cmp.Or(cmp.Compare(along(p), along(q)), compare(p, q)) })
	var out []segment
	from := s.a
	for _, p := range append(slices.Compact(at), s.b) {
		if p != from {
			piece := newSegment(from, p, 0, 0)
			piece.rings = s.rings
			out = append(out, piece)
			from = p
		}
	}
	return out
}

// distinct joins equal segments, leaves out those that belong to no ring, and
// sorts the others.
func distinct(list []segment) []segment {
	slices.SortStableFunc(list, func(s, t segment) int { return cmp.Or(compare(s.a, t.a), compare(s.b, t.b)) })
	var out []segment
	for i := 0; i < len(list); {
		s := list[i]
		for i++; i < len(list) && list[i].a == s.a && list[i].b == s.b; i++ {
			s.rings = toggled(s.rings, list[i].rings)
		}
		if len(s.rings) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// toggled returns what is in one of two sorted lists only, sorted.
func toggled(a, b []int32) []int32 {
	out := make([]int32, 0, len(a)+len(b))
	for len(a) > 0 || len(b) > 0 {
		switch {
		case len(b) == 0 || len(a) > 0 && a[0] < b[0]:
			out, a = append(out, a[0]), a[1:]
		case len(a) == 0 || b[0] < a[0]:
			out, b = append(out, b[0]), b[1:]
		default:
			a, b = a[1:], b[1:]
		}
	}
	return out
}
