package arcs_test

import (
	"math"
	"math/rand"
	"reflect"
	"testing"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
	"weekband/regions/internal/planar"
)

func square(x, y, side float64) orb.Ring {
	return orb.Ring{{x, y}, {x + side, y}, {x + side, y + side}, {x, y + side}, {x, y}}
}

func backwards(ring orb.Ring) orb.Ring {
	out := ring.Clone()
	out.Reverse()
	return out
}

func TestSignedArea(t *testing.T) {
	for name, c := range map[string]struct {
		ring orb.Ring
		want float64
	}{
		"counter-clockwise": {square(100, 50, 2), 4},
		"clockwise":         {backwards(square(100, 50, 2)), -4},
		"a line":            {orb.Ring{{0, 0}, {1, 1}, {0, 0}}, 0},
		"there and back":    {orb.Ring{{0, 0}, {1, 1}, {2, 2}, {0, 0}}, 0},
		"empty":             {nil, 0},
	} {
		if got := arcs.SignedArea(c.ring); got != c.want {
			t.Errorf("%s: %v, want %v", name, got, c.want)
		}
	}
}

// Two unit squares side by side share one line between two junctions; each
// keeps one line of its own.
func TestBuildTwoSquares(t *testing.T) {
	shapes := []orb.MultiPolygon{{{square(0, 0, 1)}}, {{square(1, 0, 1)}}}
	topo := arcs.Build(shapes)
	if len(topo.Lines) != 3 {
		t.Fatalf("%d lines, want 3: %v", len(topo.Lines), topo.Lines)
	}
	if got := topo.Inner(); len(got) != 1 || len(got[0]) != 2 || got[0][0][0] != 1 || got[0][1][0] != 1 {
		t.Errorf("inner %v, want the line at x = 1", got)
	}
	if got := topo.Outer(); len(got) != 2 {
		t.Errorf("outer %v, want two lines", got)
	}
	sameShapes(t, topo.Shapes(), shapes)
}

// A hole and the island that fills it are one line, whichever vertex their
// rings begin at.
func TestBuildIsland(t *testing.T) {
	hole := backwards(square(1, 1, 1))
	island := orb.Ring{{2, 2}, {1, 2}, {1, 1}, {2, 1}, {2, 2}}
	topo := arcs.Build([]orb.MultiPolygon{{{square(0, 0, 3), hole}}, {{island}}})
	if len(topo.Lines) != 2 || len(topo.Inner()) != 1 || len(topo.Outer()) != 1 {
		t.Errorf("lines %v", topo.Lines)
	}
}

// An outline that runs along a line and back does not bound the shape there.
func TestSpikeBoundsNothing(t *testing.T) {
	ring := orb.Ring{{0, 0}, {2, 0}, {2, 2}, {1, 2}, {1, 3}, {1, 2}, {0, 2}, {0, 0}}
	topo := arcs.Build([]orb.MultiPolygon{{{ring}}})
	for _, line := range append(topo.Inner(), topo.Outer()...) {
		for _, p := range line {
			if p == (orb.Point{1, 3}) {
				t.Errorf("the spike is a border: %v", line)
			}
		}
	}
}

func TestSimplifyByHand(t *testing.T) {
	// The bump at (2, 0.1) has a triangle of 0.1: 1.0 < tol² keeps it at 0.3
	// and drops it at 0.4. The corner (2, 2) has one of 4.
	make := func() []orb.LineString {
		return []orb.LineString{{{0, 0}, {1, 0}, {2, 0.1}, {3, 0}, {4, 0}}}
	}
	for tol, want := range map[float64]int{0: 5, 0.2: 5, 0.24: 3, 1: 2, -1: 5} {
		lines := make()
		arcs.Thin(lines, func(int) float64 { return tol })
		if len(lines[0]) != want {
			t.Errorf("tolerance %v leaves %v, want %d vertices", tol, lines[0], want)
		}
	}
	straight := []orb.LineString{{{0, 0}, {1, 0}, {2, 0}, {2, 1}}}
	arcs.Thin(straight, func(int) float64 { return 0 })
	if want := (orb.LineString{{0, 0}, {2, 0}, {2, 1}}); !reflect.DeepEqual(straight[0], want) {
		t.Errorf("tolerance 0 leaves %v, want %v", straight[0], want)
	}
}

// A bend stays while a vertex of another line lies in its triangle.
func TestThinKeepsABendAroundAnIsland(t *testing.T) {
	lines := []orb.LineString{
		{{0, 0}, {2, 1}, {4, 0}},
		{{2, 0.5}, {2.1, 0.5}, {2.1, 0.6}, {2, 0.5}},
	}
	arcs.Thin(lines, func(int) float64 { return 100 })
	if len(lines[0]) != 3 || len(lines[1]) != 4 {
		t.Errorf("got %v", lines)
	}
}

// Two lines between the same ends must not become one.
func TestThinKeepsALens(t *testing.T) {
	lines := []orb.LineString{{{0, 0}, {1, 1}, {2, 0}}, {{0, 0}, {1, -1}, {2, 0}}}
	arcs.Thin(lines, func(int) float64 { return 100 })
	if len(lines[0])+len(lines[1]) != 5 {
		t.Errorf("got %v, want one of the two straight", lines)
	}
}

// Patches of a jagged lattice: after any simplification nothing crosses, the
// borders are still shared and the total area is that of the outline.
func TestSimplifyKeepsAPartition(t *testing.T) {
	for seed := range int64(5) {
		shapes := lattice(8, 6, seed)
		for _, tol := range []float64{0, 0.05, 0.3, 1, 50} {
			topo := arcs.Build(shapes)
			before := len(topo.Lines)
			inner := len(topo.Inner())
			topo.Simplify(tol)
			if len(topo.Lines) != before || len(topo.Inner()) != inner {
				t.Fatalf("lines came or went")
			}
			if err := planar.Check(planar.SegmentsOf(topo.Lines)); err != nil {
				t.Fatalf("seed %d tolerance %v: %v", seed, tol, err)
			}
			sum := 0.0
			var lines []orb.LineString
			for _, shape := range topo.Shapes() {
				a := arcs.SignedArea(shape[0][0])
				if a <= 0 {
					t.Fatalf("seed %d tolerance %v: a patch of area %v", seed, tol, a)
				}
				sum += a
				lines = append(lines, orb.LineString(shape[0][0]))
			}
			outline := 0.0 // the shoelace sum over unshared edges only
			for s, uses := range planar.SegmentsOf(lines) {
				outline += float64(uses[0]-uses[1]) * (s[0][0]*s[1][1] - s[1][0]*s[0][1]) / 2
			}
			if math.Abs(sum-outline) > 1e-9 {
				t.Errorf("seed %d tolerance %v: patches %v, outline %v", seed, tol, sum, outline)
			}
		}
	}
}

// lattice returns cols × rows patches whose common borders are zigzags.
func lattice(cols, rows int, seed int64) []orb.MultiPolygon {
	r := rand.New(rand.NewSource(seed))
	const parts = 8
	line := func(a, b orb.Point) orb.LineString {
		out := orb.LineString{a}
		for i := 1; i < parts; i++ {
			k := float64(i) / parts
			out = append(out, orb.Point{
				a[0] + k*(b[0]-a[0]) + 0.2*(r.Float64()-0.5)*(b[1]-a[1]),
				a[1] + k*(b[1]-a[1]) + 0.2*(r.Float64()-0.5)*(b[0]-a[0]),
			})
		}
		return append(out, b)
	}
	at := func(x, y int) orb.Point { return orb.Point{float64(x), float64(y)} }
	across, along := map[orb.Point]orb.LineString{}, map[orb.Point]orb.LineString{}
	for x := range cols + 1 {
		for y := range rows + 1 {
			across[at(x, y)], along[at(x, y)] = line(at(x, y), at(x+1, y)), line(at(x, y), at(x, y+1))
		}
	}
	var shapes []orb.MultiPolygon
	for x := range cols {
		for y := range rows {
			ring := orb.Ring(across[at(x, y)].Clone())
			ring = append(ring, along[at(x+1, y)][1:]...)
			for _, side := range []orb.LineString{across[at(x, y+1)], along[at(x, y)]} {
				for i := len(side) - 2; i >= 0; i-- {
					ring = append(ring, side[i])
				}
			}
			shapes = append(shapes, orb.MultiPolygon{{ring}})
		}
	}
	return shapes
}
