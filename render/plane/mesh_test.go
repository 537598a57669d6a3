package plane

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// thinning is the slack of the tests, in tenths of a pixel.
const thinning = 1.5

// wavy is a line of n steps from (0, y) to (n, y) that strays a little.
func wavy(n int, y float64, r *rand.Rand) []Pixel {
	out := make([]Pixel, n+1)
	for i := range out {
		out[i] = Pixel{X: float64(i), Y: y + 2*math.Sin(float64(i)/9) + 0.3*r.Float64()}
	}
	return out
}

// strata is a rectangle cut by wavy lines into layers, each a ring that begins
// somewhere and runs either way.
func strata(layers int, r *rand.Rand) []*Path {
	const n = 200
	edges := make([][]Pixel, layers+1)
	for i := range edges {
		edges[i] = wavy(n, 20*float64(i), r)
	}
	paths := make([]*Path, layers)
	for i := range paths {
		below := slices.Clone(edges[i+1])
		slices.Reverse(below)
		ring := append(slices.Clone(edges[i]), below...)
		k := r.IntN(len(ring))
		ring = append(ring[k:len(ring):len(ring)], ring[:k]...)
		paths[i] = &Path{}
		paths[i].AddRing(ring...)
	}
	return paths
}

// Layers thinned together still fill the whole without gap or overlap, lose
// points, keep every corner where they meet, and stay within the slack.
func TestMeshKeepsBordersShared(t *testing.T) {
	for seed := range uint64(20) {
		paths := strata(5, rand.New(rand.NewPCG(seed, 1)))
		m := NewMesh(paths, thinning)
		thinner, whole := m.Paths(), m.Union()
		sum, before, after := 0.0, 0, 0
		for i, p := range thinner {
			sum += p.Area()
			before += len(paths[i].Lines[0].Points)
			after += len(p.Lines[0].Points)
		}
		if got := whole.Area(); math.Abs(got-sum) > 1e-6 || len(whole.Lines) != 1 {
			t.Errorf("seed %d: layers of %.4f px² make a whole of %.4f px² in %d rings", seed, sum, got, len(whole.Lines))
		}
		if after > before*3/4 || after < 50 {
			t.Errorf("seed %d: %d points became %d", seed, before, after)
		}
		edges := map[[2]Pixel]int{}
		for _, p := range thinner {
			ring := p.Lines[0].Points
			for i, q := range ring {
				edges[[2]Pixel{q, ring[(i+1)%len(ring)]}]++
			}
		}
		unmatched := 0
		for e := range edges {
			if edges[[2]Pixel{e[1], e[0]}] == 0 {
				unmatched++
			}
		}
		if want := len(whole.Lines[0].Points); unmatched != want {
			t.Errorf("seed %d: %d edges have none on the other side, want the %d of the outline", seed, unmatched, want)
		}
		for i, p := range thinner {
			for _, q := range paths[i].Lines[0].Points {
				if d := -math.Abs(depth(p, q)); d < -(thinning/10 + 0.08) { // and rounding
					t.Fatalf("seed %d: %v is %.2f px from the thinned outline", seed, q, -d)
				}
			}
		}
	}
}

// An island and the hole it fills stay alike; one too small to see goes from
// both.
func TestMeshIslands(t *testing.T) {
	for _, c := range []struct {
		radius float64
		rings  int
	}{{3, 1}, {0.3, 0}} {
		island, hole := Polygon(Pixel{X: 20.03, Y: 20.01}, c.radius, 60), Polygon(Pixel{X: 20.03, Y: 20.01}, c.radius, 60)
		slices.Reverse(hole)
		hole = append(hole[7:], hole[:7]...)
		sea := RectPath(Rect{Right: 40, Bottom: 40})
		sea.AddRing(hole...)
		var land Path
		land.AddRing(island...)
		m := NewMesh([]*Path{sea, &land}, thinning)
		got := m.Paths()
		if len(got[0].Lines) != 1+c.rings || len(got[1].Lines) != c.rings {
			t.Errorf("radius %g: %d and %d rings, want %d and %d", c.radius, len(got[0].Lines), len(got[1].Lines), 1+c.rings, c.rings)
		}
		if sum := got[0].Area() + got[1].Area(); c.rings > 0 && math.Abs(sum-1600) > 1e-9 {
			t.Errorf("radius %g: %.6f px² in all, want 1600", c.radius, sum)
		}
		if whole := m.Union(); len(whole.Lines) != 1 || math.Abs(whole.Area()-1600) > 1e-9 {
			t.Errorf("radius %g: the whole has %d rings", c.radius, len(whole.Lines))
		}
	}
}

// Path data by hand: steps are differences of rounded places, so rounding
// does not add up.
func TestPathData(t *testing.T) {
	var p Path
	for i := range 3 {
		x := float64(i) * 1.04
		p.Add(Pixel{X: x, Y: 5}, Pixel{X: x, Y: 5})
	}
	p.AddRing(Pixel{X: 10, Y: 10}, Pixel{X: 12.54, Y: 9.96}, Pixel{X: 12.53, Y: 9.55}, Pixel{X: -0.04, Y: 0})
	p.AddRing(Pixel{X: 1, Y: 1}, Pixel{X: 1.01, Y: 1}, Pixel{X: 1, Y: 1.02})
	const want = "m0 5h0m1 0h0m1.1 0h0m7.9 5 2.5 0 0-.4-12.5-9.6z"
	if got := p.SVG(); got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got, want := p.PDF(), "0 5 m\n0 5 l\n1 5 m\n1 5 l\n2.1 5 m\n2.1 5 l\n10 10 m\n12.5 10 l\n12.5 9.6 l\n0 0 l\nh\n"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
