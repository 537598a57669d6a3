package source

import (
	"fmt"

	"weekband/grid"
	"weekband/grid/units"
)

// Range of believable normals in °C, and of their deviations in kelvins.
// Extremes of monthly means on record: about −71 °C (interior of Antarctica)
// and 43 °C; from memory. Bare soil at the surface is warmer.
const (
	coldest, hottest = -90, 60
	widest           = 40
)

// Read fills dst with rows [first, first+rows) of all layers. It allocates
// only when dst is too small. Several goroutines may read at once, each into
// its own dst. It returns an error that names file, row, column and value
// when a temperature is outside −90 to 60 °C (a deviation outside 0 to 40 K),
// and the errors of the files.
func (n *Normals) Read(first, rows int, dst *Rows) error {
	if first < 0 || rows < 1 || first > n.grid.Rows()-rows {
		return fmt.Errorf("normals: rows %d to %d were asked for; the grid has rows 0 to %d", first, first+rows-1, n.grid.Rows()-1)
	}
	cells := rows * n.grid.Cols()
	dst.fit(len(n.layers), cells)
	for i := range n.layers {
		l := &n.layers[i]
		vals := dst.Vals[i]
		if err := l.from.Read(l.index, first, rows, vals, dst.one); err != nil {
			return err
		}
		if err := n.convert(l, first, vals, dst.one); err != nil {
			return err
		}
		if i == 0 {
			copy(dst.Has, dst.one)
			copy(dst.any, dst.one)
			continue
		}
		dst.join()
	}
	dst.Partial = 0
	for k, some := range dst.any {
		if some != dst.Has[k] {
			dst.Partial++
		}
	}
	return nil
}

// join takes the marks of one more layer into Has and any. Nearly everywhere
// they are those of the layers before, which stretches of cells compare at
// once.
func (r *Rows) join() {
	const stretch = 64
	has, some, one := r.Has, r.any, r.one
	for len(one) >= stretch {
		if h, o := [stretch]bool(has), [stretch]bool(one); h != o || o != [stretch]bool(some) {
			joinCells(has[:stretch], some, one)
		}
		has, some, one = has[stretch:], some[stretch:], one[stretch:]
	}
	joinCells(has[:len(one)], some, one)
}

func joinCells(has, some, one []bool) {
	for k := range has {
		has[k] = has[k] && one[k]
		some[k] = some[k] || one[k]
	}
}

// Reset gives r room for layers of cells each and clears the presence of all,
// for whoever fills rows of another source than files. The values are what
// they were.
func (r *Rows) Reset(layers, cells int) {
	r.fit(layers, cells)
	clear(r.Has)
	r.Partial = 0
}

// fit gives r room for layers of cells each.
func (r *Rows) fit(layers, cells int) {
	if len(r.Vals) == layers && len(r.one) == cells {
		return
	}
	if need := layers * cells; cap(r.store) < need {
		r.store = make([]float32, need)
	}
	if cap(r.Has) < cells {
		r.Has, r.one, r.any = make([]bool, cells), make([]bool, cells), make([]bool, cells)
	}
	r.Has, r.one, r.any = r.Has[:cells], r.one[:cells], r.any[:cells]
	if cap(r.Vals) < layers {
		r.Vals = make([][]float32, layers)
	}
	r.Vals = r.Vals[:layers]
	for i := range r.Vals {
		r.Vals[i] = r.store[i*cells : (i+1)*cells : (i+1)*cells]
	}
}

// convert turns the file's numbers into °C and checks their range.
func (n *Normals) convert(l *layer, first int, vals []float32, has []bool) error {
	low, high := float32(coldest), float32(hottest)
	slope, zero := linear(n.scale)
	if n.diff {
		low, high, zero = 0, widest, 0
	}
	if n.scale == units.C {
		for i, v := range vals { // 0 where there is none
			if !(v >= low && v <= high) {
				return n.rangeError(l, first, i, v)
			}
		}
		return nil
	}
	for i, v := range vals {
		c := float32(float64(float64(v)*slope) + zero)
		if has[i] && !(c >= low && c <= high) {
			return n.rangeError(l, first, i, v)
		}
		vals[i] = c
	}
	return nil
}

func (n *Normals) rangeError(l *layer, first, i int, raw float32) error {
	cell := grid.Cell{Row: first + i/n.grid.Cols(), Col: i % n.grid.Cols()}
	told := l.from.Describe()
	where := fmt.Sprintf("%s: row %d, column %d", told.Name, cell.Row, cell.Col)
	if l.from.Count() > 1 {
		where = fmt.Sprintf("%s: layer %d, row %d, column %d", told.Name, l.index+1, cell.Row, cell.Col)
	}
	p := n.grid.Center(cell)
	where += fmt.Sprintf(" (latitude %.4g, longitude %.4g)", p.Lat, p.Lon)
	if n.diff {
		return fmt.Errorf("%s: deviation %g in unit %v is outside 0 to %d K; %s", where, raw, n.scale, widest, n.hint(raw, told))
	}
	return fmt.Errorf("%s: %g in unit %v is %.5g °C, outside %d to %d °C; %s",
		where, raw, n.scale, float64(n.scale.Celsius(float64(raw))), coldest, hottest, n.hint(raw, told))
}

// hint says what to do about a value out of range.
func (n *Normals) hint(raw float32, told Description) string {
	if raw <= -999 || raw >= 9999 {
		nodata := told.NoData
		if nodata == "" {
			nodata = "none"
		}
		return fmt.Sprintf("if %g stands for a missing cell, the file must say so (its nodata value is %s)", raw, nodata)
	}
	for _, s := range []units.Scale{units.C, units.F, units.K, units.TenthsC, units.TenthsF} {
		if c := s.Celsius(float64(raw)); s != n.scale && c >= -60 && c <= 45 && !n.diff {
			return fmt.Sprintf("is the unit %v? Then write it in the recipe: unit: %v", s, s)
		}
	}
	return "is the unit right? Name it in the recipe: unit: C, F, K, 0.1C or 0.1F"
}
