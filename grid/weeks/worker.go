package weeks

import (
	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/curve"
	"weekband/grid/soil"
	"weekband/grid/source"
	"weekband/grid/status"
	"weekband/grid/units"
)

// worker holds what one goroutine needs for its cells, so that a cell costs
// no allocation.
type worker struct {
	normals Normals
	windows []status.Window
	opts    Options
	model   soil.Model
	years   *Years // nil: none are kept
	block   Block

	rows, sdRows, seRows source.Rows
	skipped              int // elements of them before those of the block
	months               [12]units.Celsius
	days                 []units.Celsius
	air                  curve.Curve
	along                calibration.Along
	ground
	doubt
}

func newWorker(normals Normals, windows []status.Window, opts Options, years *Years) *worker {
	w := &worker{normals: normals, windows: windows, opts: opts, model: soil.Default, years: years}
	w.block.Windows = make([]Strip, len(windows))
	w.block.know(opts.Offsets != nil, opts.knowsError())
	if opts.Soil != nil {
		w.model = *opts.Soil
	}
	if w.opts.Order == 0 {
		w.opts.Order = curve.Order
	}
	w.days = make([]units.Celsius, normals.Layers())
	w.doubt.offsets = opts.Offsets
	w.ground.response, w.ground.depth = w.model.Response(), opts.Depth
	return w
}

// work makes block what the wanted ones of rows [first, first+rows) give. All of
// them are read: where a read begins may move last digits.
func (w *worker) work(first, rows int) error {
	if err := w.read(first, rows); err != nil {
		return err
	}
	cols := w.normals.Grid().Cols()
	wanted := w.opts.rows.both(Span{From: first, To: first + rows})
	w.block.fit(wanted.From, wanted.Rows(), cols)
	w.skipped = (wanted.From - first) * cols
	copy(w.block.Has, w.rows.Has[w.skipped:])
	for row := range wanted.Rows() {
		w.begin(wanted.From + row)
		for col := range cols {
			i := row*cols + col
			if !w.block.Has[i] {
				continue
			}
			w.warm(col, i)
			w.doubts(i)
			w.judge(i)
			if cell := (grid.Cell{Row: wanted.From + row, Col: col}); w.years != nil && w.years.keeps(cell) {
				w.years.set(cell, w.monthMeans())
			}
		}
	}
	return nil
}

// tell tells Done of the block, which begins at row first of the normals' own.
func (w *worker) tell(first int) {
	if w.opts.Done == nil {
		return
	}
	partial := w.rows.Partial
	if !w.opts.rows.holds(first) { // the block begins among other rows, which count it
		partial = 0
	}
	w.opts.Done(w.block.Rows, partial)
}

// read reads the rows of all that is known of the cells.
func (w *worker) read(first, rows int) error {
	if err := w.normals.Read(first, rows, &w.rows); err != nil {
		return err
	}
	if w.opts.SD != nil {
		if err := w.opts.SD.Read(first, rows, &w.sdRows); err != nil {
			return err
		}
	}
	if w.opts.SE != nil {
		if err := w.opts.SE.Read(first, rows, &w.seRows); err != nil {
			return err
		}
	}
	return nil
}

// begin prepares for the cells of a row.
func (w *worker) begin(row int) {
	if w.opts.Offsets != nil {
		w.opts.Offsets.Along(row, &w.along)
	}
}

// warm makes ground the year of soil of a column of the row begun, element i of
// the block.
func (w *worker) warm(col, i int) {
	w.fit(&w.air, &w.rows, i)
	w.air.Sketch(&w.sketch)
	offset := &w.model.Offset
	if w.opts.Offsets != nil {
		var coldest units.Celsius // up to 0 °C it is all the same
		if w.sketch.Under(0) == 0 {
			coldest = units.Celsius(w.sketch.Lowest())
		}
		w.model.Offset, w.trust = w.along.At(col, coldest)
	}
	w.lay(&w.air, offset)
}

// doubts sets what is known of the doubts of element i of the block.
func (w *worker) doubts(i int) {
	if w.hasSD = w.opts.SD != nil && w.sdRows.Has[w.skipped+i]; w.hasSD {
		w.fit(&w.sd, &w.sdRows, i)
	}
	if w.hasSE = w.opts.SE != nil && w.seRows.Has[w.skipped+i]; w.hasSE {
		w.fit(&w.se, &w.seRows, i)
	}
}

// fit makes c the annual curve of the rows at element i of the block.
func (w *worker) fit(c *curve.Curve, rows *source.Rows, i int) {
	i += w.skipped
	if len(rows.Vals) == len(w.months) {
		for m := range w.months {
			w.months[m] = units.Celsius(rows.Vals[m][i])
		}
		c.Fit(&w.months)
		return
	}
	for d := range w.days {
		w.days[d] = units.Celsius(rows.Vals[d][i])
	}
	*c = curve.FromDays(w.days, w.opts.Order)
}

// judge sets element i of the block from the soil year.
func (w *worker) judge(i int) {
	coldest, warmest := w.extremes()
	w.block.Coldest[i], w.block.Warmest[i] = float32(coldest.At), float32(warmest.At)
	if w.block.Near != nil {
		w.block.Near[i] = float32(w.trust.Near)
	}
	for k := range w.windows {
		p := w.windows[k].Judge(&w.ground, &w.doubt)
		w.block.Windows[k].set(i, &p)
	}
}
