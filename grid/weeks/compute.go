package weeks

import (
	"context"
	"fmt"
	"runtime"
	"sync"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/curve"
	"weekband/grid/soil"
	"weekband/grid/source"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/worth"
)

// Normals hands out rows of the layers of a typical year in °C: 12 months or
// 365 days, first layer January or 1 January. Read must allow concurrent
// calls.
type Normals interface {
	Grid() grid.Grid
	Layers() int
	Read(first, rows int, dst *source.Rows) error
}

// Options steer Compute. The zero value takes the defaults.
type Options struct {
	Soil  *soil.Model     // nil: soil.Default
	Depth soil.Conduction // from the model's depth to the wanted one
	SD    Normals         // year-to-year standard deviation in K, nil: spread.Default
	SE    Normals         // standard error of the normals in K, nil: not known
	// Offsets replace the model's own by what calibration stations say of every
	// cell; nil keeps it, and then its error is not known.
	Offsets *calibration.Layer
	Order   int // harmonics for daily normals, 0: 6
	Workers int // 0: one a processor; the result is the same for any number
	// Done is called as rows are finished, from any goroutine, with their
	// number and that of their cells that have normals in some layers only.
	Done func(rows, partial int)

	rows Span // that are wanted
}

// blockRows is how many rows a worker takes at a time, and blockBytes how much
// memory they may take where the normals know better how many to read at once.
const (
	blockRows  = 16
	blockBytes = 8 << 20
)

// rowsAtATime returns how many rows to read at a time.
func rowsAtATime(n Normals) int {
	if c, ok := n.(interface{ ChunkRows(bytes int64) int }); ok {
		return c.ChunkRows(blockBytes)
	}
	return blockRows
}

// Compute works out one Field for every window. Cells without normals have
// no reason and no day. It returns an error when the standard deviations lie
// on another grid, when reading fails, or when ctx is done.
func Compute(ctx context.Context, normals Normals, windows []status.Window, opts Options) ([]*Field, error) {
	opts.rows = Span{To: normals.Grid().Rows()}
	fields, err := compute(ctx, normals, windows, opts)
	if err != nil {
		return nil, err
	}
	for _, f := range fields {
		f.unwrap()
	}
	return fields, nil
}

// compute works out the wanted rows of every field, days still of the year.
func compute(ctx context.Context, normals Normals, windows []status.Window, opts Options) ([]*Field, error) {
	g := normals.Grid()
	for what, n := range map[string]Normals{"standard deviations": opts.SD, "standard errors": opts.SE} {
		if n != nil && !n.Grid().Matches(g) {
			return nil, fmt.Errorf("%s lie on another grid: %v; the normals have %v", what, n.Grid(), g)
		}
	}
	fields := make([]*Field, len(windows))
	common := &Common{Coldest: grid.NewRaster[float32](g), Warmest: grid.NewRaster[float32](g), Typical: newYears(g)}
	if opts.Offsets != nil {
		common.Near = grid.NewRaster[float32](g)
	}
	for i, w := range windows {
		fields[i] = newField(g, w, common)
		if opts.SE != nil || opts.Offsets != nil {
			fields[i].Error = grid.NewRaster[float32](g)
		}
	}
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	step := rowsAtATime(normals)
	blocks := make(chan int)
	var wg sync.WaitGroup
	workers := opts.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	for range workers {
		wg.Go(func() {
			w := newWorker(normals, fields, opts)
			for first := range blocks {
				rows := min(step, g.Rows()-first)
				if err := w.block(first, rows); err != nil {
					cancel(err)
					return
				}
				if opts.Done != nil {
					partial := w.rows.Partial
					if !opts.rows.holds(first) {
						partial = 0
					}
					opts.Done(opts.rows.both(Span{From: first, To: first + rows}).Rows(), partial)
				}
			}
		})
	}
feed:
	for first := opts.rows.From / step * step; first < opts.rows.To; first += step {
		select {
		case blocks <- first:
		case <-ctx.Done():
			break feed
		}
	}
	close(blocks)
	wg.Wait()
	if err := context.Cause(ctx); err != nil {
		return nil, err
	}
	return fields, nil
}

// worker holds what one goroutine needs for its cells, so that a cell costs
// no allocation.
type worker struct {
	normals Normals
	fields  []*Field
	opts    Options
	model   soil.Model

	rows, sdRows, seRows source.Rows
	months               [12]units.Celsius
	days                 []units.Celsius
	air, year            curve.Year
	worth                worth.Season
	doubt
}

func newWorker(normals Normals, fields []*Field, opts Options) *worker {
	w := &worker{normals: normals, fields: fields, opts: opts, model: soil.Default}
	if opts.Soil != nil {
		w.model = *opts.Soil
	}
	if w.opts.Order == 0 {
		w.opts.Order = curve.Order
	}
	w.days = make([]units.Celsius, normals.Layers())
	w.doubt.offsets = opts.Offsets
	return w
}

// block works out the wanted ones of rows [first, first+rows).
func (w *worker) block(first, rows int) error {
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
	cols := w.normals.Grid().Cols()
	for i, ok := range w.rows.Has {
		cell := grid.Cell{Row: first + i/cols, Col: i % cols}
		if !ok || !w.opts.rows.holds(cell.Row) {
			continue
		}
		c := w.fit(&w.rows, i)
		c.Sample(&w.air)
		w.ground(cell)
		w.doubts(i)
		w.judge(cell)
	}
	return nil
}

// ground turns a cell's year of air into one of soil.
func (w *worker) ground(cell grid.Cell) {
	if w.opts.Offsets != nil {
		w.model.Offset, w.trust = w.opts.Offsets.At(cell, calibration.ColdestOf(&w.air))
		w.fields[0].Near.Set(cell, float32(w.trust.Near))
	}
	w.model.Apply(&w.air, &w.year)
	w.opts.Depth.Apply(&w.year)
}

// doubts sets what is known of the doubts of element i of the rows.
func (w *worker) doubts(i int) {
	if w.hasSD = w.opts.SD != nil && w.sdRows.Has[i]; w.hasSD {
		w.sd = w.fit(&w.sdRows, i)
	}
	if w.hasSE = w.opts.SE != nil && w.seRows.Has[i]; w.hasSE {
		w.se = w.fit(&w.seRows, i)
	}
}

// fit returns the annual curve of element i of the rows.
func (w *worker) fit(rows *source.Rows, i int) curve.Curve {
	if len(rows.Vals) == len(w.months) {
		for m := range w.months {
			w.months[m] = units.Celsius(rows.Vals[m][i])
		}
		return curve.FromMonths(&w.months)
	}
	for d := range w.days {
		w.days[d] = units.Celsius(rows.Vals[d][i])
	}
	return curve.FromDays(w.days, w.opts.Order)
}

// judge sets one cell of every field from the soil year.
func (w *worker) judge(cell grid.Cell) {
	for k, f := range w.fields {
		p := f.Window.Judge(&w.year, &w.doubt, &w.worth)
		if k == 0 { // the year is the same for all windows
			f.Coldest.Set(cell, float32(p.Crossing.Coldest))
			f.Warmest.Set(cell, float32(p.Crossing.Warmest))
			f.Typical.keep(cell, &w.year)
		}
		f.Reason.Set(cell, p.Crossing.Reason)
		if p.Crossing.Reason.Crosses() {
			f.Slope.Set(cell, float32(p.Crossing.Slope))
		}
		if !p.Crossing.Reason.HasDay() {
			continue
		}
		f.Day.Set(cell, float32(p.Crossing.Day))
		f.Spread.Set(cell, float32(p.Spread))
		if f.Error != nil {
			f.Error.Set(cell, float32(p.Error))
		}
		f.OntimeFrom.Set(cell, float32(p.Calendar.OntimeFrom))
		f.CatchupTo.Set(cell, float32(p.Calendar.CatchupTo))
	}
}
