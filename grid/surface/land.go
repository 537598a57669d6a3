package surface

import (
	"fmt"
	"math"

	"weekband/grid"
	"weekband/grid/table/sites"
)

// Elevations are heights in metres on a grid: layer 0 is read. Cells without
// a value are sea, or land nobody surveyed. An open terrain file of
// weekband/grid/source fits. Read must allow concurrent calls.
type Elevations interface {
	Grid() grid.Grid
	Read(layer, first, rows int, vals []float32, has []bool) error
}

// Raster makes elevations of a raster held in memory.
func Raster(r *grid.Raster[float32]) Elevations { return raster{r} }

type raster struct{ r *grid.Raster[float32] }

func (e raster) Grid() grid.Grid { return e.r.Grid() }

func (e raster) Read(_, first, rows int, vals []float32, has []bool) error {
	cols := e.r.Grid().Cols()
	for i := range rows {
		v, h := e.r.Row(first + i)
		copy(vals[i*cols:], v)
		copy(has[i*cols:], h)
	}
	return nil
}

// Level makes elevations of 0 m everywhere, for normals on a grid without a
// terrain.
func Level(g grid.Grid) Elevations { return level{g} }

type level struct{ g grid.Grid }

func (e level) Grid() grid.Grid { return e.g }

func (e level) Read(_, _, rows int, vals []float32, has []bool) error {
	n := rows * e.g.Cols()
	clear(vals[:n])
	for i := range has[:n] {
		has[i] = true
	}
	return nil
}

// Land is what a terrain tells about the surroundings of a place, on blocks
// of about 4 km: how high the valley floor lies and how far the sea is.
type Land struct {
	blocks      grid.Grid // blocks of cells; its last row and column may be cut
	low, high   []float32 // lowest and highest cell within floorKm, m
	shore       []float32 // km to the nearest block without elevation, 0 there
	has         []bool    // low and high are known
	perRow, per int       // cells in a block
}

const (
	blockKm = 4    // coarser terrains are taken cell by cell
	floorKm = 7    // radius of what counts as the same valley, see doc.go
	seaKm   = 1000 // distances to the sea end here
)

// Survey reads a terrain once. It should reach as far beyond the wanted grid
// as the stations do. It returns the errors of reading, and one when no cell
// has an elevation or one is outside −500 to 9,000 m.
func Survey(terrain Elevations) (*Land, error) {
	g := terrain.Grid()
	mid := math.Cos(g.Box().Center().Lat * math.Pi / 180)
	l := &Land{
		perRow: max(1, int(blockKm/(g.StepLat()*grid.KmPerDegree))),
		per:    max(1, int(blockKm/(g.StepLon()*grid.KmPerDegree*mid))),
	}
	rows, cols := (g.Rows()+l.perRow-1)/l.perRow, (g.Cols()+l.per-1)/l.per
	b := g.Box()
	// The last row and column of blocks may reach past the grid; a grid that
	// would leave the globe is cut there and its last blocks are narrower.
	blocks, err := grid.New(grid.Box{
		West: b.West, East: min(b.West+float64(float64(cols*l.per)*g.StepLon()), 180),
		North: b.North, South: max(b.North-float64(float64(rows*l.perRow)*g.StepLat()), -90),
	}, rows, cols)
	if err != nil {
		return nil, fmt.Errorf("terrain: %w", err)
	}
	l.blocks = blocks
	if err := l.read(terrain); err != nil {
		return nil, err
	}
	l.measureShore()
	l.spread()
	return l, nil
}

// read takes the lowest and highest cell of every block.
func (l *Land) read(terrain Elevations) error {
	g := terrain.Grid()
	n := l.blocks.Cells()
	l.low, l.high, l.has = make([]float32, n), make([]float32, n), make([]bool, n)
	vals, has := make([]float32, l.perRow*g.Cols()), make([]bool, l.perRow*g.Cols())
	some := false
	for first := 0; first < g.Rows(); first += l.perRow {
		rows := min(l.perRow, g.Rows()-first)
		if err := terrain.Read(0, first, rows, vals, has); err != nil {
			return fmt.Errorf("terrain: %w", err)
		}
		for i, v := range vals[:rows*g.Cols()] {
			if !has[i] {
				continue
			}
			cell := grid.Cell{Row: first + i/g.Cols(), Col: i % g.Cols()}
			if !(v >= sites.Lowest && v <= sites.Highest) {
				at := g.Center(cell)
				return fmt.Errorf("terrain: row %d, column %d (latitude %.4g, longitude %.4g): elevation %g m is outside %d to %d m; are these metres, and is the nodata value set?",
					cell.Row, cell.Col, at.Lat, at.Lon, v, sites.Lowest, sites.Highest)
			}
			k := first/l.perRow*l.blocks.Cols() + cell.Col/l.per
			if !l.has[k] {
				l.low[k], l.high[k], l.has[k], some = v, v, true, true
			}
			l.low[k], l.high[k] = min(l.low[k], v), max(l.high[k], v)
		}
	}
	if !some {
		return fmt.Errorf("terrain: no cell of %v has an elevation", g)
	}
	return nil
}

// around is what Land knows of a place.
type around struct {
	low, high float64 // m
	shore     float64 // km
}

// at interpolates between blocks. ok is false off the terrain and where no
// land is within reach.
func (l *Land) at(p grid.LonLat) (a around, ok bool) {
	row, col := l.blocks.Position(p)
	if !l.blocks.Box().Contains(p) {
		return a, false
	}
	row, col = row-0.5, col-0.5
	r0, c0 := int(math.Floor(row)), int(math.Floor(col))
	total := 0.0
	for i := range 2 {
		for j := range 2 {
			r, c := min(max(r0+i, 0), l.blocks.Rows()-1), min(max(c0+j, 0), l.blocks.Cols()-1)
			k := r*l.blocks.Cols() + c
			if !l.has[k] {
				continue
			}
			w := float64(math.Abs(1-float64(i)-(row-float64(r0))) * math.Abs(1-float64(j)-(col-float64(c0))))
			total += w
			a.low += float64(w * float64(l.low[k]))
			a.high += float64(w * float64(l.high[k]))
			a.shore += float64(w * float64(l.shore[k]))
		}
	}
	if total == 0 {
		return around{}, false
	}
	return around{a.low / total, a.high / total, a.shore / total}, true
}
