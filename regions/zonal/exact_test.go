package zonal_test

import (
	"math"
	"math/big"
	"math/rand"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/regions"
	"weekband/regions/zonal"
)

// corner is a point in exact numbers.
type corner struct{ x, y *big.Rat }

func exact(v float64) *big.Rat { return new(big.Rat).SetFloat64(v) }

func exactRing(ring orb.Ring) []corner {
	var out []corner
	for _, p := range ring[:len(ring)-1] {
		out = append(out, corner{exact(p[0]), exact(p[1])})
	}
	return out
}

// side is a half plane: x or y at least, or at most, a bound.
type side struct {
	vertical bool // bounds x
	least    bool
	bound    *big.Rat
}

func (s side) along(p corner) *big.Rat {
	if s.vertical {
		return p.x
	}
	return p.y
}

func (s side) holds(p corner) bool {
	c := s.along(p).Cmp(s.bound)
	return c == 0 || (c > 0) == s.least
}

// cut returns where the line from p to q meets the bound.
func (s side) cut(p, q corner) corner {
	from, to := s.along(p), s.along(q)
	t := new(big.Rat).Quo(new(big.Rat).Sub(s.bound, from), new(big.Rat).Sub(to, from))
	between := func(a, b *big.Rat) *big.Rat {
		d := new(big.Rat).Sub(b, a)
		return d.Add(a, d.Mul(d, t))
	}
	if s.vertical {
		return corner{s.bound, between(p.y, q.y)}
	}
	return corner{between(p.x, q.x), s.bound}
}

// clip returns the part of a ring in a half plane: Sutherland & Hodgman 1974,
// Communications of the ACM 17:32.
func (s side) clip(ring []corner) (out []corner) {
	for i, q := range ring {
		p := ring[(i+len(ring)-1)%len(ring)]
		if s.holds(p) != s.holds(q) {
			out = append(out, s.cut(p, q))
		}
		if s.holds(q) {
			out = append(out, q)
		}
	}
	return out
}

// enclosed returns the area within a ring by the shoelace formula.
func enclosed(ring []corner) *big.Rat {
	sum := new(big.Rat)
	for i, q := range ring {
		p := ring[(i+len(ring)-1)%len(ring)]
		sum.Add(sum, new(big.Rat).Sub(new(big.Rat).Mul(p.x, q.y), new(big.Rat).Mul(q.x, p.y)))
	}
	return sum.Abs(sum.Quo(sum, big.NewRat(2, 1)))
}

// exactShares returns the share of every cell that a polygon covers, without
// any rounding but that of the quotient.
func exactShares(polygon orb.Polygon, g grid.Grid) [][]float64 {
	out := make([][]float64, g.Rows())
	for row := range out {
		out[row] = make([]float64, g.Cols())
		for i, ring := range polygon {
			b := g.Bounds(grid.Cell{Row: row})
			band := side{least: true, bound: exact(b.South)}.clip(exactRing(ring))
			band = side{bound: exact(b.North)}.clip(band)
			for col := range out[row] {
				b := g.Bounds(grid.Cell{Row: row, Col: col})
				part := side{vertical: true, least: true, bound: exact(b.West)}.clip(band)
				part = side{vertical: true, bound: exact(b.East)}.clip(part)
				cell := new(big.Rat).Mul(new(big.Rat).Sub(exact(b.East), exact(b.West)), new(big.Rat).Sub(exact(b.North), exact(b.South)))
				share, _ := cell.Quo(enclosed(part), cell).Float64()
				if i > 0 {
					share = -share
				}
				out[row][col] += share
			}
		}
	}
	return out
}

// crag is a ring about a point that turns back and forth, from least to most
// of its width and height away.
func crag(r *rand.Rand, lon, lat, width, height, least, most float64) orb.Ring {
	n := 6 + r.Intn(25) // with fewer the ring might cut into the hole
	var ring orb.Ring
	for i := range n {
		a, far := 2*math.Pi*(float64(i)+r.Float64()*0.8)/float64(n), least+(most-least)*r.Float64()
		ring = append(ring, orb.Point{lon + width*far*math.Cos(a), lat + height*far*math.Sin(a)})
	}
	return append(ring, ring[0])
}

// Random polygons with holes on random grids against clipping them by every
// cell in rational numbers. Cells agree to 1e-9 of their area.
func TestCoverAgainstExactClipping(t *testing.T) {
	r := rand.New(rand.NewSource(1974))
	worst := 0.0
	for range 40 {
		west, south := -170+300*r.Float64(), -80+140*r.Float64()
		width, height := 0.01+20*r.Float64()*r.Float64(), 0.01+15*r.Float64()*r.Float64()
		g := mustGrid(t, grid.Box{West: west, South: south, East: west + width, North: south + height}, 2+r.Intn(6), 2+r.Intn(7))
		lon, lat := west+width*r.Float64(), south+height*r.Float64()
		w, h := width*(0.1+r.Float64()), height*(0.1+r.Float64())
		polygon := orb.Polygon{crag(r, lon, lat, w, h, 0.5, 1)}
		if r.Intn(3) > 0 {
			polygon = append(polygon, hole(crag(r, lon, lat, w, h, 0.05, 0.2)))
		}
		want := exactShares(polygon, g)
		got := shares(zonal.Cover(orb.MultiPolygon{polygon}, g))
		for row := range want {
			for col, share := range want[row] {
				worst = max(worst, math.Abs(got[row][col]-share))
			}
		}
	}
	t.Logf("cells differ by %.1g of their area at most", worst)
	if worst > 1e-9 {
		t.Errorf("a cell differs by %g of its area from exact clipping", worst)
	}
}

// What real counties cover of cells of 800 m adds up to what their outlines
// enclose in the plane, by the shoelace formula, to 1e-9 of the area of each.
func TestCountiesKeepTheirAreaInThePlane(t *testing.T) {
	set := us(t, "counties-10m.json", "counties")
	g := mustGrid(t, grid.Box{West: -180, South: -20, East: 180, North: 75}, 95*120, 360*120)
	for i, c := range zonal.CoverAll(set, g) {
		got, want := 0.0, shoelace(set.Regions[i].Shape)
		for _, run := range c.Runs {
			got += run.Share * float64(run.To-run.From) * g.StepLon() * g.StepLat()
		}
		if math.Abs(got-want) > 1e-9*want {
			t.Errorf("%s: %v square degrees, outline %v", set.Regions[i].Name, got, want)
		}
	}
}

// shoelace returns the area of a shape in square degrees, about its own corner
// so that digits are not lost.
func shoelace(shape orb.MultiPolygon) float64 {
	b := regions.BoundsOf(shape)
	sum := 0.0
	for _, polygon := range shape {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				p, q := ring[i-1], ring[i]
				sum += ((p[0]-b.West)*(q[1]-b.South) - (q[0]-b.West)*(p[1]-b.South)) / 2
			}
		}
	}
	return sum
}
