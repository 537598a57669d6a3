package render

import (
	"math"

	"weekband/grid"
	"weekband/render/plane"
)

// sightMesh holds positions at places evenly apart in a rectangle, between
// which a script interpolates. It holds them as two numbers, the longitude in
// degrees and the sine of the latitude, or, where a pole lies on the map, as
// the three of a place on the unit sphere, which have no gap anywhere. The sine
// makes cylinders exact and does no harm elsewhere.
//
// Numbers count Unit from Base. They are written as what they differ from the
// node before plus the node above less the node before that one, which is
// little where a map bends little.
type sightMesh struct {
	Rect [4]float64 `json:"rect"` // left, top, right, bottom
	Cols int        `json:"cols"` // nodes from left to right, at least two
	Rows int        `json:"rows"` // nodes from top to bottom, at least two
	Unit float64    `json:"unit"`
	Node [][]*int   `json:"node"` // by number of a position, two or three, then row by row; null where there is no ground
}

// Limits of a mesh: sides of its cells in layout pixels, largest first, and
// how far off a position may be between its nodes.
const (
	sightSide  = 160
	sightLeast = 6
	sightOff   = 0.2
	sightUnit  = 0.02 // px, how finely numbers are written
)

// newSightMesh returns the coarsest mesh of a map that errs little enough.
func newSightMesh(v view, frame plane.Rect) sightMesh {
	n := sightNodes{view: v, rect: frame}
	middle, _ := v.position(frame.Center())
	n.lon0 = middle.Lon
	n.ball = v.showsPole(frame)
	n.rect = v.filled(frame)
	for side := float64(sightSide); ; side /= 1.3 {
		n.lay(side)
		if side < sightLeast || n.off() < sightOff {
			return n.mesh()
		}
	}
}

// position returns what a place on the page shows.
func (v view) position(at plane.Pixel) (grid.LonLat, bool) {
	return v.projection.Inverse(v.screen.Point(at))
}

// showsPole reports whether the inside of a frame holds a pole as a point.
func (v view) showsPole(frame plane.Rect) bool {
	for _, lat := range [...]float64{-90, 90} {
		a, b := v.at([2]float64{0, lat}), v.at([2]float64{90, lat})
		if frame.Grow(sightSide).Contains(a) && math.Hypot(a.X-b.X, a.Y-b.Y) < 1 {
			return true
		}
	}
	return false
}

// filled returns a frame without the margins at which the earth has ended, as
// those beside a map of the world.
func (v view) filled(frame plane.Rect) plane.Rect {
	c := frame.Center()
	end := func(to plane.Pixel) plane.Pixel {
		if _, ok := v.position(to); ok {
			return to
		}
		in, out := 0.0, 1.0
		for range 40 {
			f := (in + out) / 2
			if _, ok := v.position(plane.Pixel{X: c.X + float64(f*(to.X-c.X)), Y: c.Y + float64(f*(to.Y-c.Y))}); ok {
				in = f
			} else {
				out = f
			}
		}
		in -= 1e-7 // the edge itself may have the longitude of the other one
		return plane.Pixel{X: c.X + float64(in*(to.X-c.X)), Y: c.Y + float64(in*(to.Y-c.Y))}
	}
	return plane.Rect{
		Left: end(plane.Pixel{X: frame.Left, Y: c.Y}).X, Right: end(plane.Pixel{X: frame.Right, Y: c.Y}).X,
		Top: end(plane.Pixel{X: c.X, Y: frame.Top}).Y, Bottom: end(plane.Pixel{X: c.X, Y: frame.Bottom}).Y,
	}
}

// sightNodes is a mesh before it is written.
type sightNodes struct {
	view       view
	rect       plane.Rect
	ball       bool
	lon0       float64 // in the middle
	cols, rows int
	nodes      [][3]float64
	has        []bool
}

// lay sets nodes about side pixels apart.
func (n *sightNodes) lay(side float64) {
	n.cols = max(2, 1+int(math.Ceil(n.rect.Width()/side)))
	n.rows = max(2, 1+int(math.Ceil(n.rect.Height()/side)))
	n.nodes, n.has = make([][3]float64, n.cols*n.rows), make([]bool, n.cols*n.rows)
	for i := range n.nodes {
		if p, ok := n.view.position(n.place(float64(i%n.cols), float64(i/n.cols))); ok {
			n.nodes[i], n.has[i] = n.numbers(p), true
		}
	}
}

// place returns where the page has a place of the mesh, counted in cells.
func (n *sightNodes) place(col, row float64) plane.Pixel {
	return plane.Pixel{
		X: n.rect.Left + n.rect.Width()*col/float64(n.cols-1),
		Y: n.rect.Top + n.rect.Height()*row/float64(n.rows-1),
	}
}

// numbers are those a mesh holds of a position. Longitudes go on over 180° so
// that none jumps within half a turn of the middle.
func (n *sightNodes) numbers(p grid.LonLat) [3]float64 {
	sin, cos := math.Sincos(p.Lat * math.Pi / 180)
	if n.ball {
		sinλ, cosλ := math.Sincos(p.Lon * math.Pi / 180)
		return [3]float64{cos * cosλ, cos * sinλ, sin}
	}
	return [3]float64{(n.lon0 + math.Remainder(p.Lon-n.lon0, 360)) * math.Pi / 180, sin, 0}
}

// lonLat is the position of numbers, which need not have length one.
func (n *sightNodes) lonLat(v [3]float64) grid.LonLat {
	if n.ball {
		return grid.LonLat{Lon: math.Atan2(v[1], v[0]) * 180 / math.Pi, Lat: math.Atan2(v[2], math.Hypot(v[0], v[1])) * 180 / math.Pi}
	}
	return grid.LonLat{Lon: v[0] * 180 / math.Pi, Lat: math.Asin(max(-1, min(1, v[1]))) * 180 / math.Pi}
}

// off returns how far, in layout pixels, positions between nodes are from
// where they belong, at the worst of nine places in each cell.
func (n *sightNodes) off() float64 {
	worst := 0.0
	for row := range n.rows - 1 {
		for col := range n.cols - 1 {
			a, b, c, d := row*n.cols+col, row*n.cols+col+1, (row+1)*n.cols+col, (row+1)*n.cols+col+1
			if !(n.has[a] && n.has[b] && n.has[c] && n.has[d]) {
				continue
			}
			for k := range 9 {
				x, y := float64(1+k%3)/4, float64(1+k/3)/4
				var v [3]float64
				for i := range v {
					v[i] = float64((1-y)*(float64((1-x)*n.nodes[a][i])+float64(x*n.nodes[b][i]))) + float64(y*(float64((1-x)*n.nodes[c][i])+float64(x*n.nodes[d][i])))
				}
				p := n.lonLat(v)
				want, got := n.place(float64(col)+x, float64(row)+y), n.view.at([2]float64{p.Lon, p.Lat})
				worst = max(worst, math.Hypot(want.X-got.X, want.Y-got.Y))
			}
		}
	}
	return worst
}

// mesh writes the nodes as whole numbers of a unit that is fine enough.
func (n *sightNodes) mesh() sightMesh {
	perRadian := n.view.screen.PixelsPerMetre() * grid.EarthKm * 1000
	m := sightMesh{Rect: corners(n.rect), Cols: n.cols, Rows: n.rows, Unit: math.Pow(10, math.Floor(math.Log10(sightUnit/perRadian)))}
	count := 3
	if !n.ball {
		count = 2
	}
	for i := range count {
		at := make([]int, len(n.nodes))
		node := make([]*int, len(n.nodes))
		for k := range n.nodes {
			if !n.has[k] {
				continue
			}
			at[k] = int(math.Round(n.nodes[k][i] / m.Unit))
			d := at[k] - expected(at, k, n.cols)
			node[k] = &d
		}
		m.Node = append(m.Node, node)
	}
	return m
}

// expected is what the nodes before and above say of one; those without
// ground count as 0.
func expected(at []int, k, cols int) int {
	var left, up, both int
	if k%cols > 0 {
		left = at[k-1]
	}
	if k >= cols {
		up = at[k-cols]
	}
	if k%cols > 0 && k >= cols {
		both = at[k-cols-1]
	}
	return left + up - both
}
