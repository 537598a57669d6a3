package planar

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// Segment is a straight line between two positions.
type Segment [2]orb.Point

// SegmentsOf returns the distinct segments of lines, whichever way they are
// run, and how often each occurs forwards and backwards. Forwards is from the
// lesser position, by x and then y.
func SegmentsOf(lines []orb.LineString) map[Segment][2]int {
	out := map[Segment][2]int{}
	for _, line := range lines {
		for i := 1; i < len(line); i++ {
			s, way := Segment{line[i-1], line[i]}, 0
			if less(s[1], s[0]) {
				s, way = Segment{s[1], s[0]}, 1
			}
			n := out[s]
			n[way]++
			out[s] = n
		}
	}
	return out
}

func less(a, b orb.Point) bool { return a[0] < b[0] || a[0] == b[0] && a[1] < b[1] }

// Check returns an error when two different segments meet other than in a
// common end, or one has no length. Segments are compared within square
// buckets, so the work grows little faster than their number.
func Check(segments map[Segment][2]int) error {
	var bound orb.Bound
	list := make([]Segment, 0, len(segments))
	longest := 0.0
	for s := range segments {
		b := orb.MultiPoint(s[:]).Bound()
		if len(list) == 0 {
			bound = b
		}
		bound = bound.Union(b)
		longest += max(b.Right()-b.Left(), b.Top()-b.Bottom())
		list = append(list, s)
		if s[0] == s[1] {
			return fmt.Errorf("a segment without length at %v", s[0])
		}
	}
	side := longest / float64(len(list)) * 2
	buckets := map[[2]int][]int{}
	for i, s := range list {
		var fault error
		within(s, bound.Min, side, func(key [2]int) {
			for _, j := range buckets[key] {
				if fault == nil && meet(s, list[j]) {
					fault = fmt.Errorf("segments %v and %v meet", s, list[j])
				}
			}
			buckets[key] = append(buckets[key], i)
		})
		if fault != nil {
			return fault
		}
	}
	return nil
}

func within(s Segment, low orb.Point, side float64, visit func(key [2]int)) {
	at := func(v, low float64) int { return int(math.Floor((v - low) / side)) }
	x0, x1 := at(s[0][0], low[0]), at(s[1][0], low[0])
	y0, y1 := at(s[0][1], low[1]), at(s[1][1], low[1])
	for x := min(x0, x1); x <= max(x0, x1); x++ {
		for y := min(y0, y1); y <= max(y0, y1); y++ {
			visit([2]int{x, y})
		}
	}
}

// meet reports whether two different segments have a point in common that is
// not an end of both.
func meet(s, o Segment) bool {
	for i := range 2 {
		for j := range 2 {
			if s[i] == o[j] { // they may still overlap beyond the common end
				a, b, c := s[i], s[1-i], o[1-j]
				return turn(a, b, c) == 0 && (b[0]-a[0])*(c[0]-a[0])+(b[1]-a[1])*(c[1]-a[1]) > 0
			}
		}
	}
	d1, d2 := turn(s[0], s[1], o[0]), turn(s[0], s[1], o[1])
	d3, d4 := turn(o[0], o[1], s[0]), turn(o[0], o[1], s[1])
	if d1*d2 < 0 && d3*d4 < 0 {
		return true
	}
	return d1 == 0 && on(s, o[0]) || d2 == 0 && on(s, o[1]) || d3 == 0 && on(o, s[0]) || d4 == 0 && on(o, s[1])
}

func turn(a, b, c orb.Point) int {
	v := (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0])
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

func on(s Segment, p orb.Point) bool {
	return p[0] >= min(s[0][0], s[1][0]) && p[0] <= max(s[0][0], s[1][0]) &&
		p[1] >= min(s[0][1], s[1][1]) && p[1] <= max(s[0][1], s[1][1])
}
