package arcs_test

import (
	"math/rand"
	"reflect"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
)

func TestNest(t *testing.T) {
	big, mid, small := square(0, 0, 10), square(2, 2, 4), square(3, 3, 1)
	shape, stray := arcs.Nest([]orb.Ring{
		backwards(square(2, 2, 4)), big, small, backwards(square(20, 20, 1)), backwards(square(20, 3, 1)),
		backwards(square(3.2, 3.2, 0.5)), {{1, 1}, {2, 2}, {1, 1}},
	})
	if stray != 2 {
		t.Errorf("%d stray holes, want those at x = 20", stray)
	}
	want := orb.MultiPolygon{{big, backwards(mid)}, {small, backwards(square(3.2, 3.2, 0.5))}}
	if !reflect.DeepEqual(shape, want) {
		t.Errorf("got %v\nwant %v", shape, want)
	}
}

// A hole may touch its outer ring in a point.
func TestNestTouchingHole(t *testing.T) {
	hole := orb.Ring{{0, 0}, {1, 2}, {2, 1}, {0, 0}}
	shape, stray := arcs.Nest([]orb.Ring{square(0, 0, 4), hole})
	if stray != 0 || len(shape) != 1 || len(shape[0]) != 2 {
		t.Errorf("got %v with %d stray", shape, stray)
	}
}

// Holes of holes of holes, many beside each other, some touching: against
// looking through all outer rings.
func TestNestManyLevels(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	var rings []orb.Ring
	var want []int // number of the outer ring of each hole
	var fill func(x, y, side float64, level, outer int)
	fill = func(x, y, side float64, level, outer int) {
		ring := square(x, y, side)
		if level%2 == 1 {
			ring = backwards(ring)
			want = append(want, outer)
		} else {
			outer = len(rings)
			want = append(want, -1)
		}
		rings = append(rings, ring)
		if level == 5 {
			return
		}
		// A 3 × 3 checkerboard, whose squares touch at corners, or scattered.
		step := side / 7
		for i := range 9 {
			if r.Float64() < 0.75 && i%2 == 0 {
				fill(x+side*0.2+float64(i%3)*step, y+side*0.3+float64(i/3)*step, step, level+1, outer)
			}
		}
	}
	fill(0, 0, 1000, 0, -1)
	if len(rings) < 200 {
		t.Fatalf("only %d rings", len(rings))
	}
	shape, stray := arcs.Nest(rings)
	if stray != 0 {
		t.Errorf("%d stray", stray)
	}
	for _, polygon := range shape {
		outer := slices.IndexFunc(rings, func(ring orb.Ring) bool { return orb.Equal(ring, polygon[0]) })
		for _, hole := range polygon[1:] {
			if at := slices.IndexFunc(rings, func(ring orb.Ring) bool { return orb.Equal(ring, hole) }); want[at] != outer {
				t.Errorf("hole %d went into %d, want %d", at, outer, want[at])
			}
		}
	}
}

// sameShapes compares rings from whatever vertex they begin at.
func sameShapes(t *testing.T, got, want []orb.MultiPolygon) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d shapes, want %d", len(got), len(want))
	}
	for s := range want {
		if len(got[s]) != len(want[s]) {
			t.Fatalf("shape %d: %d polygons, want %d", s, len(got[s]), len(want[s]))
		}
		for p := range want[s] {
			for r := range want[s][p] {
				if !sameRing(got[s][p][r], want[s][p][r]) {
					t.Fatalf("shape %d polygon %d ring %d: %v, want %v", s, p, r, got[s][p][r], want[s][p][r])
				}
			}
		}
	}
}

func sameRing(a, b orb.Ring) bool {
	n := len(a) - 1
	if len(a) != len(b) {
		return false
	}
	for shift := range n {
		same := true
		for i := 0; i < n && same; i++ {
			same = a[(i+shift)%n] == b[i]
		}
		if same {
			return true
		}
	}
	return false
}
