package ground_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
	"weekband/regions/ground"
	"weekband/regions/internal/planar"
)

func square(west, south, side float64) orb.Ring {
	return orb.Ring{{west, south}, {west + side, south}, {west + side, south + side}, {west, south + side}, {west, south}}
}

// Areas by hand, in squared degrees.
func TestMend(t *testing.T) {
	outer := square(0, 0, 10)
	for name, c := range map[string]struct {
		shape    orb.MultiPolygon
		found    ground.Faults
		area     float64
		polygons int
		holes    int
	}{
		"sound":         {orb.MultiPolygon{{outer, square(2, 2, 1)}}, ground.Faults{}, 99, 1, 1},
		"bow tie":       {orb.MultiPolygon{{{{0, 0}, {2, 2}, {2, 0}, {0, 2}, {0, 0}}}}, ground.Faults{Crossed: true}, 2, 2, 0},
		"eight":         {orb.MultiPolygon{{{{0, 0}, {2, 0}, {1, 1}, {0, 2}, {2, 2}, {1, 1}, {0, 0}}}}, ground.Faults{Crossed: true}, 2, 2, 0},
		"touching self": {orb.MultiPolygon{{{{0, 0}, {2, 0}, {1, 1}, {2, 2}, {0, 2}, {1, 1}, {0, 0}}}}, ground.Faults{Touched: true}, 2, 2, 0},
		"spike":         {orb.MultiPolygon{{{{0, 0}, {2, 0}, {2, 2}, {5, 5}, {2, 2}, {0, 2}, {0, 0}}}}, ground.Faults{Doubled: true}, 4, 1, 0},
		"bridge":        {orb.MultiPolygon{{{{0, 0}, {2, 2}, {2, 3}, {3, 3}, {3, 2}, {2, 2}, {0, 0}, {10, 0}, {10, 10}, {0, 10}, {0, 0}}}}, ground.Faults{Doubled: true}, 99, 1, 1},
		"hole outside":  {orb.MultiPolygon{{outer, square(12, 2, 1)}}, ground.Faults{Outside: true}, 100, 1, 0},
		"nested":        {orb.MultiPolygon{{outer, square(2, 2, 4), square(3, 3, 1)}}, ground.Faults{Nested: true}, 84, 1, 1},
		"all hole":      {orb.MultiPolygon{{outer, square(0, 0, 10)}}, ground.Faults{HoleCut: true}, 0, 0, 0},
		"hole across":   {orb.MultiPolygon{{outer, square(9, 9, 2)}}, ground.Faults{HoleCut: true}, 99, 1, 0},
		"holes crossed": {orb.MultiPolygon{{outer, square(2, 2, 2), square(3, 3, 2)}}, ground.Faults{HoleCut: true}, 93, 1, 1},
		"hole at side":  {orb.MultiPolygon{{outer, square(0, 2, 2)}}, ground.Faults{HoleCut: true}, 96, 1, 0},
		"hole at point": {orb.MultiPolygon{{outer, {{0, 5}, {1, 4}, {1, 6}, {0, 5}}}}, ground.Faults{}, 99, 1, 1},
		"overlap":       {orb.MultiPolygon{{outer}, {square(5, 5, 10)}}, ground.Faults{Overlaps: true}, 175, 1, 0},
		"twice":         {orb.MultiPolygon{{outer}, {outer}}, ground.Faults{Overlaps: true}, 100, 1, 0},
		"within":        {orb.MultiPolygon{{outer}, {square(5, 5, 1)}}, ground.Faults{Overlaps: true}, 100, 1, 0},
		"side by side":  {orb.MultiPolygon{{outer}, {square(10, 0, 10)}}, ground.Faults{}, 200, 2, 0},
		"island":        {orb.MultiPolygon{{outer, square(2, 2, 4)}, {square(3, 3, 1)}}, ground.Faults{}, 85, 2, 1},
		"empty":         {nil, ground.Faults{}, 0, 0, 0},
		"flat":          {orb.MultiPolygon{{{{0, 0}, {1, 1}, {2, 2}, {0, 0}}}}, ground.Faults{Doubled: true}, 0, 0, 0},
	} {
		got, found, err := ground.Mend(c.shape)
		holes := 0
		for _, p := range got {
			holes += len(p) - 1
		}
		if err != nil || found != c.found || math.Abs(arcs.Area(got)-c.area) > 1e-7 || len(got) != c.polygons || holes != c.holes {
			t.Errorf("%s: %v, %+v, area %v in %d polygons with %d holes; want %+v", name, err, found, arcs.Area(got), len(got), holes, c)
		}
	}
}

// inside reports whether a place is ground of a shape, by the even-odd rule
// and counting along a parallel: the slow, obvious way.
func inside(shape orb.MultiPolygon, p orb.Point) bool {
	odd := func(ring orb.Ring) bool {
		in := false
		for i := 1; i < len(ring); i++ {
			a, b := ring[i-1], ring[i]
			if (a[1] > p[1]) != (b[1] > p[1]) && p[0] < a[0]+(p[1]-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
				in = !in
			}
		}
		return in
	}
	for _, polygon := range shape {
		in := odd(polygon[0])
		for _, hole := range polygon[1:] {
			in = in && !odd(hole)
		}
		if in {
			return true
		}
	}
	return false
}

// Tangles of all sorts become polygons that touch in points at most, of the
// same ground.
func TestMendTangles(t *testing.T) {
	for seed := range uint64(120) {
		random := rand.New(rand.NewPCG(seed, 7))
		coordinate := func() float64 { return float64(random.IntN(9)) } // many corners and sides in common
		if seed%2 == 0 {
			coordinate = func() float64 { return random.Float64() * 8 }
		}
		var shape orb.MultiPolygon
		for range 1 + random.IntN(2) {
			var polygon orb.Polygon
			for range 1 + random.IntN(3) {
				var ring orb.Ring
				for range 3 + random.IntN(9) {
					ring = append(ring, orb.Point{coordinate(), coordinate()})
				}
				polygon = append(polygon, append(ring, ring[0]))
			}
			shape = append(shape, polygon)
		}
		got, found, err := ground.Mend(shape)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if fault := fault(got); fault != nil && found.Any() {
			t.Fatalf("seed %d: %v\n%v", seed, fault, shape)
		}
		for range 100 {
			p := orb.Point{random.Float64() * 8, random.Float64() * 8}
			if inside(got, p) != inside(shape, p) {
				t.Fatalf("seed %d: %v is ground before: %v, after: %v\n%v\n%v", seed, p, inside(shape, p), inside(got, p), shape, got)
			}
		}
	}
}

// fault returns what is wrong with a shape: lines that meet within, rings the
// wrong way round, or the same corner twice in a ring.
func fault(shape orb.MultiPolygon) error {
	var lines []orb.LineString
	for _, polygon := range shape {
		for i, ring := range polygon {
			if (arcs.SignedArea(ring) > 0) != (i == 0) {
				return fmt.Errorf("ring %d runs the wrong way: %v", i, ring)
			}
			seen := map[orb.Point]bool{}
			for _, p := range ring[1:] {
				if seen[p] {
					return fmt.Errorf("ring %d has %v twice", i, p)
				}
				seen[p] = true
			}
			lines = append(lines, orb.LineString(ring))
		}
	}
	if len(lines) == 0 {
		return nil
	}
	return planar.Check(planar.SegmentsOf(lines))
}

// Shapes that would take for ever are refused soon, others of many lines are
// not.
func TestMendOfManyLines(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	scribble := func(n int) orb.MultiPolygon {
		var ring orb.Ring
		for range n {
			ring = append(ring, orb.Point{random.Float64(), random.Float64()})
		}
		return orb.MultiPolygon{{append(ring, ring[0])}}
	}
	if _, _, err := ground.Mend(scribble(1100)); !errors.Is(err, ground.ErrTangled) {
		t.Errorf("got %v, want a tangle", err)
	}
	if _, found, err := ground.Mend(scribble(150)); err != nil || !found.Crossed {
		t.Errorf("got %+v, %v", found, err)
	}
	var nested orb.MultiPolygon
	for i := range 200 {
		nested = append(nested, orb.Polygon{square(float64(i)/200, float64(i)/200, 5-float64(i)/100)})
	}
	got, found, err := ground.Mend(nested)
	if err != nil || !found.Overlaps || math.Abs(arcs.Area(got)-25) > 1e-9 {
		t.Errorf("area %v, %+v, %v; want 25", arcs.Area(got), found, err)
	}
}

func BenchmarkMendSound(b *testing.B) {
	var ring orb.Ring
	const n = 20000
	for i := range n {
		turn := 2 * math.Pi * float64(i) / n
		r := 10 + math.Sin(turn*700)
		ring = append(ring, orb.Point{r * math.Cos(turn), r * math.Sin(turn)})
	}
	ring = append(ring, ring[0])
	for b.Loop() {
		if _, found, err := ground.Mend(orb.MultiPolygon{{ring}}); found.Any() || err != nil {
			b.Fatal(found, err)
		}
	}
}
