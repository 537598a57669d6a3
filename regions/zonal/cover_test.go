package zonal_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/paulmach/orb"
	"pgregory.net/rapid"

	"weekband/grid"
	"weekband/regions"
	"weekband/regions/zonal"
)

func mustGrid(t testing.TB, box grid.Box, rows, cols int) grid.Grid {
	t.Helper()
	g, err := grid.New(box, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

// lopsided has cells of 2° × 0.5° far from the origin.
func lopsided(t testing.TB) grid.Grid {
	return mustGrid(t, grid.Box{West: -100, South: 40, East: -86, North: 42.5}, 5, 7)
}

func rectangle(west, south, east, north float64) orb.Ring {
	return orb.Ring{{west, south}, {east, south}, {east, north}, {west, north}, {west, south}}
}

func hole(ring orb.Ring) orb.Ring { ring.Reverse(); return ring }

// shares returns the coverage as rows of shares.
func shares(c zonal.Coverage) [][]float64 {
	out := make([][]float64, c.Grid.Rows())
	for i := range out {
		out[i] = make([]float64, c.Grid.Cols())
	}
	for cell, share := range c.Cells() {
		out[cell.Row][cell.Col] += share
	}
	return out
}

func TestCoverByHand(t *testing.T) {
	g := mustGrid(t, grid.Box{West: 0, South: 0, East: 3, North: 3}, 3, 3)
	for name, c := range map[string]struct {
		shape orb.MultiPolygon
		want  [][]float64
	}{
		"from centre to centre": {
			orb.MultiPolygon{{rectangle(0.5, 0.5, 2.5, 2.5)}},
			[][]float64{{0.25, 0.5, 0.25}, {0.5, 1, 0.5}, {0.25, 0.5, 0.25}},
		},
		"with the middle cut out": {
			orb.MultiPolygon{{rectangle(0.5, 0.5, 2.5, 2.5), hole(rectangle(1, 1, 2, 2))}},
			[][]float64{{0.25, 0.5, 0.25}, {0.5, 0, 0.5}, {0.25, 0.5, 0.25}},
		},
		"a triangle over the diagonal": {
			orb.MultiPolygon{{{{0, 0}, {3, 0}, {3, 3}, {0, 0}}}},
			[][]float64{{0, 0, 0.5}, {0, 0.5, 1}, {0.5, 1, 1}},
		},
		"past every side": {
			orb.MultiPolygon{{rectangle(-9, -9, 9, 9)}},
			[][]float64{{1, 1, 1}, {1, 1, 1}, {1, 1, 1}},
		},
		"past the west and the north": {
			orb.MultiPolygon{{rectangle(-1, 1.5, 0.5, 4)}},
			[][]float64{{0.5, 0, 0}, {0.25, 0, 0}, {0, 0, 0}},
		},
		"two parts in one cell": {
			orb.MultiPolygon{{rectangle(1, 1, 1.5, 1.5)}, {rectangle(1.5, 1.5, 2, 2)}},
			[][]float64{{0, 0, 0}, {0, 0.5, 0}, {0, 0, 0}},
		},
		"parts that overlap stop at 1": {
			orb.MultiPolygon{{rectangle(0, 0, 2, 1)}, {rectangle(1, 0, 3, 1)}},
			[][]float64{{0, 0, 0}, {0, 0, 0}, {1, 1, 1}},
		},
		"beside the grid": {
			orb.MultiPolygon{{rectangle(4, 0, 5, 1)}, {rectangle(-3, 0, -2, 1)}, {rectangle(0, -5, 1, -4)}},
			[][]float64{{0, 0, 0}, {0, 0, 0}, {0, 0, 0}},
		},
		"nothing": {nil, [][]float64{{0, 0, 0}, {0, 0, 0}, {0, 0, 0}}},
	} {
		got := shares(zonal.Cover(c.shape, g))
		for row := range got {
			for col := range got[row] {
				if math.Abs(got[row][col]-c.want[row][col]) > 1e-12 {
					t.Errorf("%s: row %d col %d is %v, want %v", name, row, col, got[row][col], c.want[row][col])
				}
			}
		}
	}
}

func TestCoverRunsAreSortedAndWhole(t *testing.T) {
	c := zonal.Cover(orb.MultiPolygon{{rectangle(-98, 40.5, -88, 42)}}, lopsided(t))
	want := []zonal.Run{{Row: 1, From: 1, To: 6, Share: 1}, {Row: 2, From: 1, To: 6, Share: 1}, {Row: 3, From: 1, To: 6, Share: 1}}
	if fmt.Sprint(c.Runs) != fmt.Sprint(want) {
		t.Errorf("got %v, want %v", c.Runs, want)
	}
}

// A star with a hole against 200 × 200 points in each cell.
func TestCoverAgainstSubpoints(t *testing.T) {
	g := lopsided(t)
	shape := orb.MultiPolygon{{star(-92.3, 41.2, 6.5, 1.25, 9, 0.45), hole(star(-92.3, 41.2, 1.5, 0.3, 5, 0.6))}}
	got := shares(zonal.Cover(shape, g))
	const n = 200
	for row := range g.Rows() {
		for col := range g.Cols() {
			b := g.Bounds(grid.Cell{Row: row, Col: col})
			in := 0
			for i := range n {
				for j := range n {
					if inside(shape, b.West+(float64(i)+0.5)/n*(b.East-b.West), b.South+(float64(j)+0.5)/n*(b.North-b.South)) {
						in++
					}
				}
			}
			if want := float64(in) / (n * n); math.Abs(got[row][col]-want) > 0.004 {
				t.Errorf("row %d col %d: %v, by points %v", row, col, got[row][col], want)
			}
		}
	}
}

// inside counts the edges east of a point.
func inside(shape orb.MultiPolygon, x, y float64) bool {
	in := false
	for _, polygon := range shape {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				p, q := ring[i-1], ring[i]
				if (p[1] > y) != (q[1] > y) && x < p[0]+(y-p[1])/(q[1]-p[1])*(q[0]-p[0]) {
					in = !in
				}
			}
		}
	}
	return in
}

func star(lon, lat, width, height float64, points int, inner float64) orb.Ring {
	var ring orb.Ring
	for i := range 2 * points {
		r := 1.0
		if i%2 == 1 {
			r = inner
		}
		a := math.Pi * float64(i) / float64(points)
		ring = append(ring, orb.Point{lon + width*r*math.Cos(a), lat + height*r*math.Sin(a)})
	}
	return append(ring, ring[0])
}

// The parts of a partition cover every cell once, and each part as much as
// its area in the plane.
func TestCoverOfAPartitionAddsToOne(t *testing.T) {
	g := lopsided(t)
	rapid.Check(t, func(rt *rapid.T) {
		r := rand.New(rand.NewSource(rapid.Int64().Draw(rt, "seed")))
		sum := make([]float64, g.Cells())
		for _, shape := range partition(r, g.Box()) {
			c := zonal.Cover(shape, g)
			area := 0.0
			for cell, share := range c.Cells() {
				if share <= 0 || share > 1 {
					rt.Fatalf("share %v in %+v", share, cell)
				}
				sum[cell.Row*g.Cols()+cell.Col] += share
				area += share * g.StepLon() * g.StepLat()
			}
			if c.Outside != 0 {
				rt.Fatalf("%v km² outside, want 0", c.Outside)
			}
			if want := plane(shape); math.Abs(area-want) > 1e-11 {
				rt.Fatalf("covers %v square degrees, the shape has %v", area, want)
			}
		}
		for i, s := range sum {
			if math.Abs(s-1) > 1e-12 {
				rt.Fatalf("cell %d is covered %v times", i, s)
			}
		}
	})
}

func plane(shape orb.MultiPolygon) float64 {
	sum := 0.0
	for i, r := 1, shape[0][0]; i < len(r); i++ {
		sum += (r[i-1][0] + r[i][0]) / 2 * (r[i][1] - r[i-1][1])
	}
	return sum
}

// partition cuts a box into a fan of triangles about a random point, with
// random points on its sides.
func partition(r *rand.Rand, b grid.Box) []orb.MultiPolygon {
	rim := orb.LineString{{b.West, b.South}, {b.East, b.South}, {b.East, b.North}, {b.West, b.North}, {b.West, b.South}}
	var fine orb.LineString
	for i := 1; i < len(rim); i++ {
		fine = append(fine, rim[i-1])
		k := r.Float64()
		if rim[i][0] == rim[i-1][0] {
			fine = append(fine, orb.Point{rim[i][0], rim[i-1][1] + k*(rim[i][1]-rim[i-1][1])})
		} else {
			fine = append(fine, orb.Point{rim[i-1][0] + k*(rim[i][0]-rim[i-1][0]), rim[i][1]})
		}
	}
	fine = append(fine, fine[0])
	hub := orb.Point{b.West + r.Float64()*(b.East-b.West), b.South + r.Float64()*(b.North-b.South)}
	var parts []orb.MultiPolygon
	for i := 1; i < len(fine); i++ {
		parts = append(parts, orb.MultiPolygon{{{fine[i-1], fine[i], hub, fine[i-1]}}})
	}
	return parts
}

// Cell areas on WGS 84: facts computed from the zone formula of Snyder 1987.
func TestAreaOfWholeCells(t *testing.T) {
	for _, c := range []struct {
		south, north, side, want float64
	}{
		{0, 1, 1, 12308.463894}, {40, 41, 1, 9412.851604}, {60, 61, 1, 6123.140879},
		{89, 90, 1, 108.866682}, {40, 40.5, 0.5, 2361.846352}, {30, 45, 15, 2201787.492776},
	} {
		g := mustGrid(t, grid.Box{West: -20, South: c.south, East: -20 + c.side, North: c.north}, 1, 1)
		shape := orb.MultiPolygon{{rectangle(-20, c.south, -20+c.side, c.north)}}
		if got := zonal.Cover(shape, g).Area(); math.Abs(got-c.want) > 2e-6 {
			t.Errorf("%v to %v N: %.6f km², want %.6f", c.south, c.north, got, c.want)
		}
		if got := regions.Area(shape); math.Abs(got-c.want) > 2e-6 {
			t.Errorf("%v to %v N by its outline: %.6f km², want %.6f", c.south, c.north, got, c.want)
		}
	}
}

func TestOutside(t *testing.T) {
	g := lopsided(t)
	half := orb.MultiPolygon{{rectangle(-101, 41, -99, 42)}} // half of it is west of the grid
	c := zonal.Cover(half, g)
	if total := regions.Area(half); math.Abs(c.Outside-total/2) > 1e-6 || math.Abs(c.Area()-total/2) > 1e-6 {
		t.Errorf("%v km² outside and %v inside, want halves of %v", c.Outside, c.Area(), total)
	}
	away := orb.MultiPolygon{{rectangle(0, 0, 1, 1)}}
	if c = zonal.Cover(away, g); math.Abs(c.Outside-12308.463894) > 1e-5 || c.Area() != 0 {
		t.Errorf("%v km² outside and %v inside, want 12308.463894 and 0", c.Outside, c.Area())
	}
}
