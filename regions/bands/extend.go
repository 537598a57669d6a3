package bands

import (
	"weekband/grid"
)

// Extend returns the field grown outward by a number of cells, for drawing
// under a finer coast line that clips it. Ring by ring, a cell outside that
// touches the field by a side or a corner gets the mean of the days around
// it, or, when classes outnumber days there, the most frequent class (the
// lower of two equally frequent). The field given stays as it is.
func (f Field) Extend(cells int) Field {
	g := f.Day.Grid()
	out := Field{Day: copyOf(f.Day), Class: grid.NewRaster[uint8](g)}
	if f.Class != nil {
		out.Class = copyOf(f.Class)
	}
	rim := out.rim(nil)
	for range cells {
		type fill struct {
			cell  grid.Cell
			day   float32
			class uint8
		}
		var fills []fill
		for _, cell := range rim {
			day, class := out.around(cell)
			fills = append(fills, fill{cell, day, class})
		}
		for _, v := range fills {
			if v.class > 0 {
				out.Class.Set(v.cell, v.class)
			} else {
				out.Day.Set(v.cell, v.day)
			}
		}
		rim = out.rim(rim)
	}
	return out
}

func copyOf[T any](r *grid.Raster[T]) *grid.Raster[T] {
	out := grid.NewRaster[T](r.Grid())
	for row := range r.Grid().Rows() {
		vals, has := r.Row(row)
		toVals, toHas := out.Row(row)
		copy(toVals, vals)
		copy(toHas, has)
	}
	return out
}

// filled reports whether a cell is part of the field.
func (f Field) filled(c grid.Cell) bool {
	if _, ok := f.Day.At(c); ok {
		return true
	}
	class, ok := f.Class.At(c)
	return ok && class > 0
}

// rim returns the cells outside the field that touch it: all of them, or,
// given the cells filled last, those around these.
func (f Field) rim(last []grid.Cell) []grid.Cell {
	if last == nil {
		return f.wholeRim()
	}
	var rim []grid.Cell
	seen := map[grid.Cell]bool{}
	for _, c := range last {
		f.neighbours(c, func(n grid.Cell) {
			if !seen[n] && !f.filled(n) {
				seen[n] = true
				rim = append(rim, n)
			}
		})
	}
	return rim
}

// wholeRim returns all cells outside the field that touch it, row by row.
func (f Field) wholeRim() []grid.Cell {
	g := f.Day.Grid()
	var rim []grid.Cell
	above, at, below := make([]bool, g.Cols()), f.filledRow(0, nil), make([]bool, g.Cols())
	for row := range g.Rows() {
		if row+1 < g.Rows() {
			below = f.filledRow(row+1, below)
		} else {
			clear(below)
		}
		for col, filled := range at {
			if filled {
				continue
			}
			for c := max(col-1, 0); c <= min(col+1, g.Cols()-1); c++ {
				if above[c] || at[c] || below[c] {
					rim = append(rim, grid.Cell{Row: row, Col: col})
					break
				}
			}
		}
		above, at, below = at, below, above
	}
	return rim
}

// filledRow tells which cells of a row are part of the field.
func (f Field) filledRow(row int, into []bool) []bool {
	_, dated := f.Day.Row(row)
	classes, has := f.Class.Row(row)
	into = append(into[:0], dated...)
	for col, ok := range has {
		into[col] = into[col] || ok && classes[col] > 0
	}
	return into
}

// neighbours visits the up to eight cells around one.
func (f Field) neighbours(c grid.Cell, visit func(grid.Cell)) {
	g := f.Day.Grid()
	for row := max(c.Row-1, 0); row <= min(c.Row+1, g.Rows()-1); row++ {
		for col := max(c.Col-1, 0); col <= min(c.Col+1, g.Cols()-1); col++ {
			if n := (grid.Cell{Row: row, Col: col}); n != c {
				visit(n)
			}
		}
	}
}

// around returns what a cell takes from its neighbours: a class, or a day
// when the class is 0.
func (f Field) around(c grid.Cell) (day float32, class uint8) {
	sum, dated, undated := 0.0, 0, 0
	var count [256]uint8 // of at most eight
	f.neighbours(c, func(n grid.Cell) {
		if d, ok := f.Day.At(n); ok {
			sum += float64(d)
			dated++
		} else if k, ok := f.Class.At(n); ok && k > 0 {
			count[k]++
			undated++
		}
	})
	if dated >= undated {
		return float32(sum / float64(dated)), 0
	}
	for k := range count {
		if count[k] > count[class] {
			class = uint8(k)
		}
	}
	return 0, class
}
