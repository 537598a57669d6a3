package frame

import (
	"fmt"
	"sync"
)

// ReadFile fills vals and has with rows [first, first+rows) of a file, in
// the file's order, all columns.
type ReadFile func(first, rows int, vals []float32, has []bool) error

// scratch lends rows as wide as the file.
type scratch struct{ pool sync.Pool }

type fileRow struct {
	vals []float32
	has  []bool
}

func newScratch(cols int) *scratch {
	return &scratch{pool: sync.Pool{New: func() any {
		return &fileRow{vals: make([]float32, cols), has: make([]bool, cols)}
	}}}
}

// Check returns an error when rows [first, first+rows) are not on the grid,
// or room for vals and has is not that for rows × columns.
func (p Placement) Check(first, rows, vals, has int) error {
	if first < 0 || rows < 1 || first > p.grid.Rows()-rows {
		return fmt.Errorf("rows %d to %d were asked for; the grid has rows 0 to %d", first, first+rows-1, p.grid.Rows()-1)
	}
	if n := rows * p.grid.Cols(); vals != n || has != n {
		return fmt.Errorf("room for %d values and %d marks was given for %d rows × %d columns", vals, has, rows, p.grid.Cols())
	}
	return nil
}

// Read fills vals and has with rows [first, first+rows) of the grid, taking
// them from the file through read. It may be called from several goroutines
// when read may. It returns the errors of Check and of read.
func (p Placement) Read(read ReadFile, first, rows int, vals []float32, has []bool) error {
	if err := p.Check(first, rows, len(vals), len(has)); err != nil {
		return err
	}
	if !p.turned {
		return read(p.top+first, rows, vals, has)
	}
	return p.readTurned(read, first, rows, vals, has)
}

func (p Placement) readTurned(read ReadFile, first, rows int, vals []float32, has []bool) error {
	cols := p.grid.Cols()
	row := p.scratch.pool.Get().(*fileRow)
	defer p.scratch.pool.Put(row)
	for i := range rows {
		at := p.fileRow(first + i)
		if err := read(at, 1, row.vals, row.has); err != nil {
			return err
		}
		lo := i * cols
		n := min(cols, p.circle-p.roll) // columns before the circle closes
		copy(vals[lo:lo+n], row.vals[p.roll:])
		copy(has[lo:lo+n], row.has[p.roll:])
		copy(vals[lo+n:lo+cols], row.vals)
		copy(has[lo+n:lo+cols], row.has)
	}
	return nil
}
