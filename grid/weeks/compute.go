package weeks

import (
	"context"
	"fmt"
	"runtime"
	"sync"

	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/soil"
	"weekband/grid/source"
	"weekband/grid/status"
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

	rows Span // that are wanted, the zero Span for all
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
	fields, years := newFields(normals.Grid(), windows, opts.Offsets != nil, opts.knowsError()), NewYears(normals.Grid())
	fields[0].Typical = years
	err := eachBlock(ctx, normals, windows, opts, years, func(_ context.Context, b *Block) error {
		take(fields, b) // blocks lie apart
		return nil
	})
	if err != nil {
		return nil, err
	}
	for _, f := range fields {
		f.unwrap()
	}
	return fields, nil
}

// newFields returns fields of windows without any value; near and error say
// what is going to be known.
func newFields(g grid.Grid, windows []status.Window, near, error bool) []*Field {
	common := &Common{Coldest: grid.NewRaster[float32](g), Warmest: grid.NewRaster[float32](g)}
	if near {
		common.Near = grid.NewRaster[float32](g)
	}
	fields := make([]*Field, len(windows))
	for i, w := range windows {
		fields[i] = newField(g, w, common)
		if error {
			fields[i].Error = grid.NewRaster[float32](g)
		}
	}
	return fields
}

// knowsError reports whether the error of days is known.
func (o *Options) knowsError() bool { return o.SE != nil || o.Offsets != nil }

// Stream works out what Compute does without ever holding more than some
// blocks of rows. Typical years go into years, made by NewYears, unless that is
// nil. It calls each with every block, from several goroutines, and then inOrder
// with the blocks from north to south, one after the other. A block must not be kept. It returns the first error that
// they return, and those of Compute.
func Stream(ctx context.Context, normals Normals, windows []status.Window, opts Options, years *Years, each, inOrder func(*Block) error) error {
	return stream(ctx, normals, windows, opts, years, each, inOrder)
}

// stream is Stream of the wanted rows.
func stream(ctx context.Context, normals Normals, windows []status.Window, opts Options, years *Years, each, inOrder func(*Block) error) error {
	var mu sync.Mutex
	turn := sync.NewCond(&mu)
	next := opts.rows.From // the row that is next in order
	wake := func() {
		mu.Lock()
		defer mu.Unlock()
		turn.Broadcast()
	}
	return eachBlock(ctx, normals, windows, opts, years, func(ctx context.Context, b *Block) error {
		if err := each(b); err != nil {
			return err
		}
		defer context.AfterFunc(ctx, wake)()
		mu.Lock()
		defer mu.Unlock()
		for next != b.First {
			if ctx.Err() != nil {
				return context.Cause(ctx)
			}
			turn.Wait()
		}
		if err := inOrder(b); err != nil {
			return err
		}
		next += b.Rows
		turn.Broadcast()
		return nil
	})
}

// eachBlock works out the wanted rows in blocks and gives each to take, from several
// goroutines, with a context that ends when any of them returns an error. A
// block is taken again for others.
func eachBlock(ctx context.Context, normals Normals, windows []status.Window, opts Options, years *Years, take func(context.Context, *Block) error) error {
	g := normals.Grid()
	for what, n := range map[string]Normals{"standard deviations": opts.SD, "standard errors": opts.SE} {
		if n != nil && !n.Grid().Matches(g) {
			return fmt.Errorf("%s lie on another grid: %v; the normals have %v", what, n.Grid(), g)
		}
	}
	if opts.rows == (Span{}) {
		opts.rows.To = g.Rows()
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
			w := newWorker(normals, windows, opts, years)
			for first := range blocks {
				rows := min(step, g.Rows()-first)
				err := w.work(first, rows)
				if err == nil {
					err = take(ctx, &w.block)
				}
				if err != nil {
					cancel(err)
					return
				}
				if opts.Done != nil {
					partial := w.rows.Partial
					if !opts.rows.holds(first) { // the block begins among other rows, which count it
						partial = 0
					}
					opts.Done(w.block.Rows, partial)
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
	return context.Cause(ctx)
}
