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
// with the blocks from north to south, one after the other. A block must not be
// kept. It returns the first error that they return, and those of Compute.
func Stream(ctx context.Context, normals Normals, windows []status.Window, opts Options, years *Years, each, inOrder func(*Block) error) error {
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

// eachBlock works out the wanted rows in blocks and gives each to take, from
// several goroutines, with a context that ends when any of them returns an
// error. A block is taken again for others.
func eachBlock(ctx context.Context, normals Normals, windows []status.Window, opts Options, years *Years, take func(context.Context, *Block) error) error {
	g := normals.Grid()
	if err := opts.check(g); err != nil {
		return err
	}
	if opts.rows == (Span{}) {
		opts.rows.To = g.Rows()
	}
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	step := rowsAtATime(normals)
	blocks := make(chan int) // their first rows
	var wg sync.WaitGroup
	for range opts.workers() {
		wg.Go(func() {
			w := newWorker(normals, windows, opts, years)
			for first := range blocks {
				err := w.work(first, min(step, g.Rows()-first))
				if err == nil {
					err = take(ctx, &w.block)
				}
				if err != nil {
					cancel(err)
					return
				}
				w.tell(first)
			}
		})
	}
	hand(ctx, blocks, opts.rows, step)
	wg.Wait()
	return context.Cause(ctx)
}

// hand sends the first rows of the blocks that hold some of the rows, until all
// are sent or ctx is done.
func hand(ctx context.Context, blocks chan<- int, rows Span, step int) {
	defer close(blocks)
	for first := rows.From / step * step; first < rows.To; first += step {
		select {
		case blocks <- first:
		case <-ctx.Done():
			return
		}
	}
}

// check returns an error when what belongs to the normals lies on another grid.
func (o *Options) check(g grid.Grid) error {
	for _, of := range []struct {
		what string
		Normals
	}{{"standard deviations", o.SD}, {"standard errors", o.SE}} {
		if of.Normals != nil && !of.Grid().Matches(g) {
			return fmt.Errorf("%s lie on another grid: %v; the normals have %v", of.what, of.Grid(), g)
		}
	}
	return nil
}

// workers returns how many goroutines work.
func (o *Options) workers() int {
	if o.Workers > 0 {
		return o.Workers
	}
	return runtime.GOMAXPROCS(0)
}
