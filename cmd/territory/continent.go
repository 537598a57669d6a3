package main

import (
	"math"
	"slices"

	"weekband/grid"
)

// continent is an invented relief over any box: smooth random numbers on
// lattices, each twice as fine and half as high as the one before. It is told
// a row at a time, so that ground of any size takes the memory of a row.
type continent struct {
	box     grid.Box
	seed    noise
	points  int     // of the coarsest lattice, from west to east
	size    float64 // degrees between them
	octaves int
	level   float64 // of the sea
}

const (
	finestCells = 1.5  // cells between the points of the finest lattice
	broad       = 3    // octaves that tell the heart of the land from its rim
	roughness   = 0.68 // height of ridges against those twice as wide
	shelf       = 0.12 // of the box, at its edges, where the ground goes down into water
)

// newContinent returns a continent for g of which a share of the cells is
// water.
func newContinent(g grid.Grid, water float64, seed uint64) continent {
	b := g.Box()
	wide, high := b.East-b.West, b.North-b.South
	c := continent{box: b, seed: noise(seed), points: max(1, int(math.Round(wide/(0.35*min(wide, high)))))}
	c.size = wide / float64(c.points)
	c.octaves = max(broad, 1+int(math.Log2(c.size/(finestCells*max(g.StepLon(), g.StepLat())))))
	sample, err := grid.New(b, 400, 800)
	if err != nil {
		panic(err) // the box of a grid is a box
	}
	var all []float32
	s := c.over(sample)
	for row := range sample.Rows() {
		all = append(all, s.row(row).base...)
	}
	slices.Sort(all)
	c.level = float64(all[min(int(water*float64(len(all))), len(all)-1)])
	return c
}

// strip is the relief of one row: its height above the sea, that of its broad
// shape, both negative on water, and how mountainous it is, 0 to about 1.
type strip struct{ base, heart, ridge []float32 }

// surveyor reads the relief off a grid. Copies by another share the tables
// but not the room to work in: one for each goroutine.
type surveyor struct {
	continent
	g      grid.Grid
	across [][]between2 // of each octave and column
	line   []float32    // one lattice, at the height of the row
	strip  strip
}

// between2 is a place between two points of a lattice.
type between2 struct {
	left int32
	part float32 // 0 at the left point, 1 at the right one
}

func (c continent) over(g grid.Grid) *surveyor {
	s := &surveyor{continent: c, g: g}
	for k := range c.octaves {
		fine := math.Exp2(float64(k)) / c.size
		line := make([]between2, g.Cols())
		for col := range line {
			x := (g.Center(grid.Cell{Col: col}).Lon - c.box.West) * fine
			line[col] = between2{left: int32(x), part: float32(fade(x - math.Floor(x)))}
		}
		s.across = append(s.across, line)
	}
	return s.another()
}

// another returns a surveyor with room of its own.
func (s *surveyor) another() *surveyor {
	o := *s
	o.line = make([]float32, 2+s.across[s.octaves-1][s.g.Cols()-1].left)
	o.strip = strip{make([]float32, s.g.Cols()), make([]float32, s.g.Cols()), make([]float32, s.g.Cols())}
	return &o
}

// row returns the relief of a row; it is good until the next call.
func (s *surveyor) row(row int) strip {
	out := s.strip
	lat := s.g.Center(grid.Cell{Row: row}).Lat
	for i := range out.base {
		sea := s.brink(row, i) - float32(s.level)
		out.base[i], out.heart[i], out.ridge[i] = sea, sea, 0
	}
	high, rough := float32(0.5), float32(0.25)
	for k := range s.octaves {
		s.latticeAt(k, (s.box.North-lat)*math.Exp2(float64(k))/s.size)
		if k < broad {
			s.addBroad(k, high)
		} else {
			s.addFine(k, high, rough)
			rough *= roughness
		}
		high /= 2
	}
	return out
}

func (s *surveyor) addBroad(k int, high float32) {
	base, heart := s.strip.base, s.strip.heart
	for i, at := range s.across[k] {
		a, b := s.line[at.left], s.line[at.left+1]
		v := float32(high * (a + float32(at.part*(b-a))))
		base[i] += v
		heart[i] += v
	}
}

func (s *surveyor) addFine(k int, high, rough float32) {
	base, ridge := s.strip.base, s.strip.ridge
	for i, at := range s.across[k] {
		a, b := s.line[at.left], s.line[at.left+1]
		v := a + float32(at.part*(b-a))
		base[i] += float32(high * v)
		ridge[i] += float32(rough * (1 - float32(3*max(v, -v))))
	}
}

// latticeAt fills line with the lattice of an octave where it meets a row, y
// steps from the north.
func (s *surveyor) latticeAt(k int, y float64) {
	j, n := int64(y), s.across[k][s.g.Cols()-1].left+2
	part := float32(fade(y - math.Floor(y)))
	for i := range s.line[:n] {
		a, b := s.chance(k, int64(i), j), s.chance(k, int64(i), j+1)
		s.line[i] = a + float32(part*(b-a))
	}
}

// chance returns the number of −1 to 1 that belongs to a point of a lattice.
// The globe's easternmost points are its westernmost.
func (s *surveyor) chance(k int, i, j int64) float32 {
	if s.globe() {
		i %= int64(s.points << k)
	}
	h := (s.seed + noise(k)*977).hash(i, j)
	return float32(int64(h>>40)-(1<<23)) / (1 << 23)
}

// brink lowers the ground towards the edges of a box, so that it ends in
// water; the globe has none.
func (s *surveyor) brink(row, col int) float32 {
	if s.globe() {
		return 0
	}
	x := (float64(col) + 0.5) / float64(s.g.Cols())
	y := (float64(row) + 0.5) / float64(s.g.Rows())
	edge := min(x, 1-x, y, 1-y)
	return float32(0.9 * (step(edge, 0, shelf) - 1))
}

// globe tells whether the continent goes all around.
func (c continent) globe() bool { return c.box.East-c.box.West == 360 }
