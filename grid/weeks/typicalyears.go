package weeks

import (
	"math"

	"weekband/grid"
	"weekband/grid/curve"
	"weekband/grid/units"
)

// Months are the monthly means of one cell's typical year at the wanted depth,
// in hundredths of a °C, January first.
type Months [12]int16

// rounded returns monthly means in °C as Months.
func rounded(means [12]units.Celsius) (m Months) {
	for i, mean := range means {
		m[i] = int16(math.Round(min(max(float64(mean)*100, math.MinInt16), math.MaxInt16)))
	}
	return m
}

// Year writes the typical year of the months.
func (m *Months) Year(year *curve.Year) {
	var means [12]units.Celsius
	for i, v := range m {
		means[i] = units.Celsius(v) / 100
	}
	c := curve.FromMonths(&means)
	c.Sample(year)
}

// mostYears bounds how many cells keep their typical year. On larger grids
// only the middle one of every block of cells does.
const mostYears = 2_000_000

// Years are the typical years of the cells of a grid, or of one cell in every
// block of Stride × Stride of them.
type Years struct {
	Stride int
	Blocks *grid.Raster[Months]
}

// Year writes the typical year that stands for a cell; ok is false where none
// is kept.
func (y *Years) Year(cell grid.Cell, year *curve.Year) (ok bool) {
	m, ok := y.Blocks.At(grid.Cell{Row: cell.Row / y.Stride, Col: cell.Col / y.Stride})
	if ok {
		m.Year(year)
	}
	return ok
}

// NewYears returns room for the typical years of a grid's cells, or of some
// where they are many.
func NewYears(g grid.Grid) *Years {
	y := &Years{Stride: 1}
	for (g.Rows()/y.Stride+1)*(g.Cols()/y.Stride+1) > mostYears {
		y.Stride *= 2 // so that strides divide the rows that others take at a time
	}
	blocks, err := grid.New(g.Box(), (g.Rows()+y.Stride-1)/y.Stride, (g.Cols()+y.Stride-1)/y.Stride)
	if err != nil {
		panic(err) // a box that holds cells holds fewer
	}
	y.Blocks = grid.NewRaster[Months](blocks)
	return y
}

// keeps reports whether a cell stands for its block.
func (y *Years) keeps(cell grid.Cell) bool {
	middle := y.Stride / 2
	return cell.Row%y.Stride == middle && cell.Col%y.Stride == middle
}

// set takes over the monthly means of a cell that stands for its block.
func (y *Years) set(cell grid.Cell, means [12]units.Celsius) {
	y.Blocks.Set(grid.Cell{Row: cell.Row / y.Stride, Col: cell.Col / y.Stride}, rounded(means))
}
