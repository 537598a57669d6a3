package surface

import (
	"fmt"
	"math"

	"weekband/grid"
	"weekband/grid/source"
)

// Surface is a Model laid over a grid: twelve layers, handed out by rows. It
// may be read by several goroutines, and gives the same numbers in whatever
// order it is read.
type Surface struct {
	model   *Model
	terrain Elevations
	lattice *lattice
}

// Over lays the model over the grid of a terrain. Cells without elevation have
// no normals. A model fitted without land takes nothing of the terrain but the
// presence of cells: Level(g) will do.
func (m *Model) Over(terrain Elevations) *Surface {
	return &Surface{model: m, terrain: terrain, lattice: newLattice(m, terrain.Grid())}
}

// Grid returns the grid of all layers.
func (s *Surface) Grid() grid.Grid { return s.terrain.Grid() }

// Layers returns 12.
func (s *Surface) Layers() int { return months }

// Read fills dst with rows [first, first+rows) of all months: °C for Means, K
// for Deviations, which are never below 0. It returns the errors of reading
// the terrain, and one when the rows are not on the grid.
func (s *Surface) Read(first, rows int, dst *source.Rows) error {
	return s.read(first, rows, dst, nil)
}

// ReadErrors is Read that fills se with the standard errors in K: of the
// normal a thermometer in the cell would have, at the cell's elevation, so
// the nugget is in them. They blend like the estimates, which can only
// overstate them.
func (s *Surface) ReadErrors(first, rows int, dst, se *source.Rows) error {
	return s.read(first, rows, dst, se)
}

func (s *Surface) read(first, rows int, dst, se *source.Rows) error {
	g := s.Grid()
	if first < 0 || rows < 1 || first > g.Rows()-rows {
		return fmt.Errorf("surface: rows %d to %d were asked for; the grid has rows 0 to %d", first, first+rows-1, g.Rows()-1)
	}
	n := rows * g.Cols()
	dst.Reset(months, n)
	if se != nil {
		se.Reset(months, n)
	}
	heights := make([]float32, n)
	if err := s.terrain.Read(0, first, rows, heights, dst.Has); err != nil {
		return fmt.Errorf("terrain: %w", err)
	}
	if se != nil {
		copy(se.Has, dst.Has)
	}
	b := blender{s: s, c: make([]float64, min(s.model.net.k, len(s.model.net.list)))}
	for row := range rows {
		b.begin(first + row)
		for col := range g.Cols() {
			i := row*g.Cols() + col
			if !dst.Has[i] {
				continue
			}
			b.cell(col, float64(heights[i]), se != nil)
			for m := range months {
				dst.Vals[m][i] = float32(b.sum[m])
				if se != nil {
					se.Vals[m][i] = float32(b.se[m])
				}
			}
		}
	}
	return nil
}

// blender estimates the cells of a row.
type blender struct {
	s       *Surface
	row     int
	i       [2]int // rows of nodes
	w       [2]float64
	nodes   [2]*nodeRow
	c       []float64
	sum, se [months]float64
}

// begin goes to a row of the grid.
func (b *blender) begin(row int) {
	l := b.s.lattice
	b.row = row
	i := row / l.down
	b.i = [2]int{i, i + 1}
	t := float64(row%l.down) / float64(l.down)
	b.w = [2]float64{1 - t, t}
	for q := range b.i {
		if b.w[q] > 0 {
			b.nodes[q] = l.row(b.i[q])
		}
	}
}

// cell estimates a cell of the row at a height in m.
func (b *blender) cell(col int, height float64, errors bool) {
	l, m := b.s.lattice, b.s.model
	at := l.grid.Center(grid.Cell{Row: b.row, Col: col})
	place := at.Globe()
	c := m.net.coverAt(at, height)
	p := m.net.point(place, &c, &m.cov)
	b.sum, b.se = [months]float64{}, [months]float64{}
	m.net.slopes.trend(&c, &b.sum)
	j := col / l.by
	t := float64(col%l.by) / float64(l.by)
	for q, wi := range b.w {
		for r, wj := range [2]float64{1 - t, t} {
			w := wi * wj
			if w == 0 {
				continue
			}
			n := l.node(b.nodes[q], b.i[q], j+r)
			f := n.frame.drift(&place, &c)
			n.estimate(&p, &f, b.c, w, &b.sum)
			if errors {
				unit := math.Sqrt(max(n.variance(&f, b.c), 0))
				for k := range b.se {
					b.se[k] += float64(w * unit * math.Sqrt(n.sill[k]))
				}
			}
		}
	}
	if m.quantity == Deviations {
		for k := range b.sum {
			b.sum[k] = max(b.sum[k], 0)
		}
	}
}
