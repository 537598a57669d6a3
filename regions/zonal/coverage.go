package zonal

import (
	"iter"

	"weekband/grid"
)

// Run is a stretch of cells of one row, columns [From, To), of which a shape
// covers the same share.
type Run struct {
	Row, From, To int
	Share         float64 // of each cell's area, in (0, 1]
}

// Coverage is what a shape covers of a grid. It is made once and used for
// every raster on that grid.
type Coverage struct {
	Grid grid.Grid
	// Runs are sorted by row, then column, and do not overlap. Inner runs
	// have share exactly 1.
	Runs []Run
	// Outside is the area in km² of the part of the shape off the grid.
	Outside float64
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
				if !yield(grid.Cell{Row: run.Row, Col: col}, run.Share) {
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
		n += run.To - run.From
	}
	return n
}

// weights visits the runs with the covered area of the whole run in km².
func (c Coverage) weights() iter.Seq2[Run, float64] {
	return func(yield func(Run, float64) bool) {
		row, area := -1, 0.0
		for _, run := range c.Runs {
			if run.Row != row {
				row, area = run.Row, c.Grid.CellArea(run.Row)
			}
			if !yield(run, float64(area*run.Share*float64(run.To-run.From))) {
				return
			}
		}
	}
}
