package main

import (
	"weekband/grid"
)

// frame is where the territory lies: a stretch of open ocean, so that nobody
// takes it for a real coast. Its cells are 0.08° × 0.08°.
var frame = grid.Box{West: -54.4, South: 31.2, East: -41.6, North: 40.8}

const (
	cellRows, cellCols = 120, 160
	fineness           = 4 // mesh nodes per cell and direction

	kmPerDegree = 111.2 // of latitude
	squeeze     = 0.81  // cosine of 36°, the middle latitude: degrees of longitude are shorter
)

// plan is a position on the drawing board: degrees of latitude east and north
// of the frame's south-western corner, alike in both directions.
type plan struct{ x, y float64 }

func planOf(p grid.LonLat) plan {
	return plan{x: (p.Lon - frame.West) * squeeze, y: p.Lat - frame.South}
}

// field holds one number for each node of a mesh; the nodes are the middles
// of the cells of g.
type field struct {
	g grid.Grid
	v []float64
}

func newField(g grid.Grid) field { return field{g: g, v: make([]float64, g.Cells())} }

// mesh returns the grid with n nodes per cell and direction.
func mesh(n int) grid.Grid {
	g, err := grid.New(frame, cellRows*n, cellCols*n)
	if err != nil {
		panic(err)
	}
	return g
}

// fill sets every node to what f says of its place.
func (f field) fill(value func(plan) float64) {
	for i := range f.v {
		f.v[i] = value(planOf(center(f.g, i)))
	}
}

// center returns the place of node i.
func center(g grid.Grid, i int) grid.LonLat {
	return g.Center(grid.Cell{Row: i / g.Cols(), Col: i % g.Cols()})
}

// nodeAt returns the node nearest to p, which must lie in the frame.
func nodeAt(g grid.Grid, p plan) int {
	c, ok := g.Locate(grid.LonLat{Lon: frame.West + p.x/squeeze, Lat: frame.South + p.y})
	if !ok {
		panic("territory: a place off the drawing board")
	}
	return c.Row*g.Cols() + c.Col
}

// kmSteps returns the distance of neighbouring nodes eastward and southward.
func kmSteps(g grid.Grid) (east, south float64) {
	return g.StepLon() * squeeze * kmPerDegree, g.StepLat() * kmPerDegree
}

// sample returns the field at p, bilinear between nodes, and the value at the
// rim outside them.
func (f field) sample(p grid.LonLat) float64 {
	row, col := f.g.Position(p)
	row = min(max(row-0.5, 0), float64(f.g.Rows()-1))
	col = min(max(col-0.5, 0), float64(f.g.Cols()-1))
	r, c := min(int(row), f.g.Rows()-2), min(int(col), f.g.Cols()-2)
	u, v := col-float64(c), row-float64(r)
	i := r*f.g.Cols() + c
	j := i + f.g.Cols()
	return (1-v)*((1-u)*f.v[i]+u*f.v[i+1]) + v*((1-u)*f.v[j]+u*f.v[j+1])
}

// onto returns the field sampled at the nodes of another mesh.
func (f field) onto(g grid.Grid) field {
	out := newField(g)
	for i := range out.v {
		out.v[i] = f.sample(center(g, i))
	}
	return out
}

// blur returns the mean over a window of 2·reach+1 nodes, three times over:
// close to a bell of standard deviation reach. The rim repeats outward.
func (f field) blur(reach int) field {
	out := newField(f.g)
	copy(out.v, f.v)
	rows, cols := f.g.Rows(), f.g.Cols()
	for range 3 {
		for r := range rows {
			slide(out.v[r*cols:], 1, cols, reach)
		}
		for c := range cols {
			slide(out.v[c:], cols, rows, reach)
		}
	}
	return out
}

// slide replaces n values, stride apart, by their running mean.
func slide(v []float64, stride, n, reach int) {
	line := make([]float64, n)
	for i := range line {
		line[i] = v[i*stride]
	}
	at := func(i int) float64 { return line[min(max(i, 0), n-1)] }
	sum := 0.0
	for i := -reach; i <= reach; i++ {
		sum += at(i)
	}
	for i := range n {
		v[i*stride] = sum / float64(2*reach+1)
		sum += at(i+reach+1) - at(i-reach)
	}
}

// around calls visit with the up to eight neighbours of node i and their
// distances in km.
func around(g grid.Grid, i int, visit func(j int, km float64)) {
	east, south := kmSteps(g)
	diagonal := hypot(east, south)
	row, col := i/g.Cols(), i%g.Cols()
	for dr := -1; dr <= 1; dr++ {
		for dc := -1; dc <= 1; dc++ {
			r, c := row+dr, col+dc
			if (dr == 0 && dc == 0) || r < 0 || c < 0 || r >= g.Rows() || c >= g.Cols() {
				continue
			}
			km := diagonal
			if dr == 0 {
				km = east
			} else if dc == 0 {
				km = south
			}
			visit(r*g.Cols()+c, km)
		}
	}
}
