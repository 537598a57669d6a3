package regrid

import (
	"errors"
	"sync"

	"weekband/grid"
	"weekband/grid/source"
)

// Source hands out rows of the layers of a typical year.
type Source interface {
	Grid() grid.Grid
	Layers() int
	Read(first, rows int, dst *source.Rows) error
}

// Normals are a source's normals on another grid, worked out row by row as
// they are read. Several goroutines may read at once.
type Normals struct {
	src     Source
	onto    grid.Grid
	fine    *grid.Raster[float32] // terrain on the new grid, nil without
	coarse  *grid.Raster[float32] // terrain on the source's grid, nil without
	average bool
	scratch sync.Pool
}

// Onto returns the normals of src on another grid. Where cells grow (see
// grows), a cell is the mean of the cells whose centres it holds. Otherwise it
// is interpolated bilinearly, over those of the four cells around that have
// normals. With a terrain (m, any grid), temperatures are first carried from
// the mean height of each source cell to that of the new cell at the local
// lapse rate of the month, and cells whose terrain has no value, the sea, have
// no normals.
//
// It returns an error when the two grids do not overlap.
func Onto(src Source, onto grid.Grid, terrain *grid.Raster[float32]) (*Normals, error) {
	from := src.Grid()
	if !from.Box().Overlaps(onto.Box()) {
		return nil, errors.New("the wanted grid (" + onto.String() + ") lies outside the normals (" + from.String() + ")")
	}
	n := &Normals{src: src, onto: onto, average: grows(from, onto)}
	if terrain != nil {
		n.fine = Raster(terrain, onto)
		n.coarse = Raster(terrain, from)
	}
	n.scratch.New = func() any { return new(source.Rows) }
	return n, nil
}

// Grid returns the new grid.
func (n *Normals) Grid() grid.Grid { return n.onto }

// Layers returns the number of layers, that of the source.
func (n *Normals) Layers() int { return n.src.Layers() }

// Read fills dst with rows [first, first+rows) of the new grid.
func (n *Normals) Read(first, rows int, dst *source.Rows) error {
	dst.Reset(n.Layers(), rows*n.onto.Cols())
	from, count := n.needed(first, rows)
	if count == 0 {
		return nil
	}
	in := n.scratch.Get().(*source.Rows)
	defer n.scratch.Put(in)
	if err := n.src.Read(from, count, in); err != nil {
		return err
	}
	if n.average {
		n.mean(first, rows, from, count, in, dst)
		return nil
	}
	n.interpolate(first, from, count, in, dst)
	return nil
}

// needed returns the rows of the source that rows of the new grid are worked
// out from.
func (n *Normals) needed(first, rows int) (from, count int) {
	g := n.src.Grid()
	box := n.onto.Slice(first, rows).Box()
	top, _ := g.Position(grid.LonLat{Lat: box.North})
	bottom, _ := g.Position(grid.LonLat{Lat: box.South})
	if bottom < 0 || top > float64(g.Rows()) {
		return 0, 0
	}
	from = max(int(top)-1-lapseReach, 0)
	return from, min(int(bottom)+2+lapseReach, g.Rows()) - from
}

// mean fills dst with means over the source cells whose centres a cell holds.
func (n *Normals) mean(first, rows, from, count int, in, dst *source.Rows) {
	g, cols := n.src.Grid(), n.onto.Cols()
	weight := make([]float64, rows*cols)
	sums := make([][]float64, n.Layers())
	for l := range sums {
		sums[l] = make([]float64, rows*cols)
	}
	for r := range count {
		area := g.CellArea(from + r)
		for c := range g.Cols() {
			i := r*g.Cols() + c
			to, inside := n.onto.Locate(g.Center(grid.Cell{Row: from + r, Col: c}))
			if !inside || !in.Has[i] || to.Row < first || to.Row >= first+rows {
				continue
			}
			k := (to.Row-first)*cols + to.Col
			weight[k] += area
			for l := range sums {
				sums[l][k] += float64(area * float64(in.Vals[l][i]))
			}
		}
	}
	for k, w := range weight {
		if w == 0 || !n.land(first, k) {
			continue
		}
		dst.Has[k] = true
		for l := range sums {
			dst.Vals[l][k] = float32(sums[l][k] / w)
		}
	}
}

// land reports whether element k of rows from first on may have normals.
func (n *Normals) land(first, k int) bool {
	if n.fine == nil {
		return true
	}
	_, ok := n.fine.At(grid.Cell{Row: first + k/n.onto.Cols(), Col: k % n.onto.Cols()})
	return ok
}

// interpolate fills dst bilinearly.
func (n *Normals) interpolate(first, from, count int, in, dst *source.Rows) {
	cols := n.onto.Cols()
	b := block{grid: n.src.Grid().Slice(from, count), rows: in}
	if n.coarse != nil {
		b.height = heights(n.coarse, from, count)
		b.rate = n.rates(in, b.height, count, b.grid.Cols())
	}
	room := make([]corner, 4)
	for k := range dst.Has {
		cell := grid.Cell{Row: first + k/cols, Col: k % cols}
		at := n.onto.Center(cell)
		if _, inside := b.grid.Locate(at); !inside || !n.land(first, k) {
			continue
		}
		z := 0.0
		if n.fine != nil {
			v, _ := n.fine.At(cell)
			z = float64(v)
		}
		corners, total := b.around(at, room[:0])
		if total < 0.25 { // less than a quarter of the surroundings is guesswork
			continue
		}
		dst.Has[k] = true
		for l := range dst.Vals {
			dst.Vals[l][k] = float32(b.sum(l, corners, z) / total)
		}
	}
}

// block is some rows of the source, with the terrain's where it is given.
type block struct {
	grid   grid.Grid
	rows   *source.Rows
	height []float32   // m, of every cell; nil without a terrain
	rate   [][]float64 // K/m, of every layer and cell
}

// corner is one of the cells around a point that has normals.
type corner struct {
	i      int // element of the rows
	weight float64
}

// around appends the corners around a point to into, and returns their weight.
func (b *block) around(at grid.LonLat, into []corner) (corners []corner, total float64) {
	for _, n := range around(b.grid, at) {
		if i := n.cell.Row*b.grid.Cols() + n.cell.Col; b.rows.Has[i] {
			into = append(into, corner{i, n.weight})
			total += n.weight
		}
	}
	return into, total
}

// sum returns the weighted sum of a layer over corners, each carried to a height
// in m.
func (b *block) sum(layer int, corners []corner, z float64) float64 {
	sum, vals := 0.0, b.rows.Vals[layer]
	for _, c := range corners {
		t := float64(vals[c.i])
		if b.rate != nil {
			t += float64(b.rate[layer][c.i] * (z - float64(b.height[c.i])))
		}
		sum += float64(c.weight * t)
	}
	return sum
}

// rates returns the local lapse rate of every layer and cell of a block.
func (n *Normals) rates(in *source.Rows, height []float32, rows, cols int) [][]float64 {
	rate := make([][]float64, n.Layers())
	for l := range rate {
		rate[l] = make([]float64, rows*cols)
		for i := range rate[l] {
			if in.Has[i] {
				rate[l][i] = lapseRate(in.Vals[l], in.Has, height, rows, cols, i/cols, i%cols)
			}
		}
	}
	return rate
}
