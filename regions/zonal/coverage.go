package zonal

import (
	"iter"

	"weekband/grid"
)

// Run is a stretch of cells of one row, columns [From, To), of which a shape
// covers the same share.
type Run struct {
	Row, From, To int32
	Share         float64 // of each cell's area, in (0, 1]
}

// cells returns how many cells the run has.
func (r Run) cells() int { return int(r.To - r.From) }

// Coverage is what a shape covers of a grid. It is made once and used for
// every raster on that grid.
type Coverage struct {
	Grid grid.Grid
	// Runs are sorted by row, then column, and do not overlap. Inner runs
	// have share exactly 1.
	Runs []Run
	// Outside is the area in km² of the part of the shape off the grid.
	Outside float64

	areas []float64 // of a cell of each row, km²; nil: to be asked of the grid
}

// Area returns the covered area on the ellipsoid in km², without the part
// outside the grid.
func (c Coverage) Area() float64 {
	sum := 0.0
	for _, km2 := range c.weights() {
		sum += km2
	}
	return sum
}

// Cells visits the covered cells with the share of each, by row and column.
func (c Coverage) Cells() iter.Seq2[grid.Cell, float64] {
	return func(yield func(grid.Cell, float64) bool) {
		for _, run := range c.Runs {
			for col := run.From; col < run.To; col++ {
				if !yield(grid.Cell{Row: int(run.Row), Col: int(col)}, run.Share) {
					return
				}
			}
		}
	}
}

// cells returns how many cells are covered, in part or whole.
func (c Coverage) cells() int {
	n := 0
	for _, run := range c.Runs {
		n += run.cells()
	}
	return n
}

// weights visits the runs with the covered area of the whole run in km².
func (c Coverage) weights() iter.Seq2[Run, float64] {
	return func(yield func(Run, float64) bool) {
		row, area := int32(-1), 0.0
		for _, run := range c.Runs {
			if run.Row != row {
				row, area = run.Row, c.cellArea(run.Row)
			}
			if !yield(run, float64(area*run.Share*float64(run.cells()))) {
				return
			}
		}
	}
}

// cellArea returns the area in km² of each cell of a row.
func (c Coverage) cellArea(row int32) float64 {
	if c.areas != nil {
		return c.areas[row]
	}
	return c.Grid.CellArea(int(row))
}

// along visits the runs with what a raster has there and the covered area of
// each of their cells in km². Loops over cells stand in the caller.
func along[T any](c Coverage, r *grid.Raster[T], visit func(vals []T, has []bool, each float64)) {
	for run, km2 := range c.weights() {
		vals, has := r.Row(int(run.Row))
		visit(vals[run.From:run.To], has[run.From:run.To], km2/float64(run.cells()))
	}
}
