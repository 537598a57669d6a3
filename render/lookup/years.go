package lookup

import (
	"math"

	"weekband/grid"
	"weekband/grid/curve"
	"weekband/grid/units"
	"weekband/grid/weeks"
)

// Years says which typical years are kept: one for every square of Stride ×
// Stride cells, of the cell nearest to its middle, its twelve monthly means at
// the edition's depth in parts of a °C, PerDegree of them. Stride 0 says that
// none are.
type Years struct {
	Stride    int `json:"stride"`
	PerDegree int `json:"per_degree"`
}

// A square's year is moved to the cell's own crossing day, so that how large
// squares are matters little: on the contiguous United States at 4 km, squares
// of 8 cells change what an application at any stage is worth by 0.1 points of
// 100 on average and by 2.6 at most, against a year a cell.
const (
	mostSquares = 16_384 // on a grid
	perDegree   = 10
)

// yearsFor returns the smallest stride, a divisor of a block's side, with at
// most mostSquares squares on a grid; the side itself on the largest.
func yearsFor(rows, cols int) Years {
	y := Years{Stride: 1, PerDegree: perDegree}
	for y.Stride < blockCells && squares(rows, y.Stride)*squares(cols, y.Stride) > mostSquares {
		y.Stride *= 2
	}
	return y
}

func squares(cells, stride int) int { return (cells + stride - 1) / stride }

func (b block) squares(stride int) (rows, cols int) {
	return squares(b.rows, stride), squares(b.cols, stride)
}

// packYears returns the parts that tell the typical years of a block.
func (b block) packYears(y Years, typical *weeks.Years) (parts [][]byte) {
	rows, cols := b.squares(y.Stride)
	n := rows * cols
	marks, has := make([]byte, n), make([]bool, n)
	var planes [12][]int
	for m := range planes {
		planes[m] = make([]int, n)
	}
	for i := range n {
		months, ok := b.yearOf(typical, y.Stride, i/cols, i%cols)
		if has[i] = ok; ok {
			marks[i] = 1
		}
		before := 0
		for m, hundredths := range months {
			v := int(math.Round(float64(hundredths) * float64(y.PerDegree) / 100))
			planes[m][i], before = v-before, v
		}
	}
	parts = append(parts, marks)
	for _, v := range planes {
		parts = append(parts, plane{rows: rows, cols: cols, bytes: 2}.pack(v, has)...)
	}
	return parts
}

// yearOf returns the year of a square: of the cell nearest to its middle that
// has one; of those as near, the first by row, then column.
func (b block) yearOf(typical *weeks.Years, stride, row, col int) (months weeks.Months, ok bool) {
	best, middle := math.MaxInt, stride/2
	for r := row * stride; r < min((row+1)*stride, b.rows); r++ {
		for c := col * stride; c < min((col+1)*stride, b.cols); c++ {
			dr, dc := r-row*stride-middle, c-col*stride-middle
			if dr*dr+dc*dc >= best {
				continue
			}
			at := grid.Cell{Row: (b.cell.Row + r) / typical.Stride, Col: (b.cell.Col + c) / typical.Stride}
			if m, here := typical.Blocks.At(at); here {
				months, ok, best = m, true, dr*dr+dc*dc
			}
		}
	}
	return months, ok
}

// takeYear unpacks the monthly means in °C of the square that holds cell i,
// nil where it has none.
func (b block) takeYear(data []byte, y Years, i int) (*yearMeans, error) {
	rows, cols := b.squares(y.Stride)
	n, at := rows*cols, i/b.cols/y.Stride*cols+i%b.cols/y.Stride
	if len(data) < n {
		return nil, errShort
	}
	has := make([]bool, n)
	for k, mark := range data[:n] {
		has[k] = mark == 1
	}
	data = data[n:]
	var months yearMeans
	sum := 0
	for m := range months {
		v, rest, err := plane{rows: rows, cols: cols, bytes: 2}.take(data, has)
		if err != nil {
			return nil, err
		}
		data = rest
		sum += v[at]
		months[m] = units.Celsius(float64(sum) / float64(y.PerDegree))
	}
	if !has[at] {
		return nil, nil
	}
	return &months, nil
}

// yearMeans are monthly means, January first.
type yearMeans = [12]units.Celsius

// Year writes the typical year of temperatures at the answer's point into year,
// moved as a whole so that it crosses on the answer's day where that has one;
// ok is false where no typical year is known.
func (a *Answer) Year(year *curve.Year) (ok bool) {
	if a.months == nil {
		return false
	}
	c := curve.FromMonths(a.months)
	c.Sample(year)
	if a.Reason.HasDay() {
		year.Shift(float64(a.Window.Trigger.Level) - year.At(a.Day))
	}
	return true
}
