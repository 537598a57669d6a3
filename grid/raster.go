package grid

import "iter"

// Raster holds one value or none for every cell of a Grid.
type Raster[T any] struct {
	grid Grid
	vals []T
	has  []bool
}

// NewRaster returns a raster on g in which no cell has a value.
func NewRaster[T any](g Grid) *Raster[T] {
	return &Raster[T]{grid: g, vals: make([]T, g.Cells()), has: make([]bool, g.Cells())}
}

// Grid returns the grid the raster lies on.
func (r *Raster[T]) Grid() Grid { return r.grid }

// At returns the value of a cell; ok is false where there is none. It panics
// when the cell is not on the grid.
func (r *Raster[T]) At(c Cell) (v T, ok bool) {
	i := r.index(c)
	return r.vals[i], r.has[i]
}

// Set gives a cell a value. It panics when the cell is not on the grid.
func (r *Raster[T]) Set(c Cell, v T) {
	i := r.index(c)
	r.vals[i], r.has[i] = v, true
}

// Row returns a row's values and their presence, both of length Cols and both
// the raster's own storage: hot loops read and write them in place. Where
// has is false the value means nothing.
func (r *Raster[T]) Row(row int) (vals []T, has []bool) {
	lo := r.index(Cell{Row: row})
	hi := lo + r.grid.cols
	return r.vals[lo:hi:hi], r.has[lo:hi:hi]
}

// All visits the cells that have a value, row by row from the north-west.
func (r *Raster[T]) All() iter.Seq2[Cell, T] {
	return func(yield func(Cell, T) bool) {
		for row := range r.grid.rows {
			vals, has := r.Row(row)
			for col, v := range vals {
				if has[col] && !yield(Cell{Row: row, Col: col}, v) {
					return
				}
			}
		}
	}
}

// Areas visits the values with the area of their cells in km², in the order of
// All.
func (r *Raster[T]) Areas() iter.Seq2[T, float64] {
	return func(yield func(T, float64) bool) {
		for row := range r.grid.rows {
			vals, has := r.Row(row)
			area := r.grid.CellArea(row)
			for col, v := range vals {
				if has[col] && !yield(v, area) {
					return
				}
			}
		}
	}
}

// Count returns how many cells have a value.
func (r *Raster[T]) Count() int {
	n := 0
	for _, ok := range r.has {
		if ok {
			n++
		}
	}
	return n
}

func (r *Raster[T]) index(c Cell) int {
	if c.Row < 0 || c.Row >= r.grid.rows || c.Col < 0 || c.Col >= r.grid.cols {
		panic("grid: cell outside the raster")
	}
	return c.Row*r.grid.cols + c.Col
}
