package survey

import (
	"cmp"
	"context"
	"errors"
	"io"
	"math"
	"os"
	"runtime/debug"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/progress"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/lookup"
)

// mostHeld is how many cells an edition holds at a time, some 50 bytes each and
// to each window. A larger grid goes by as a stream, and what is drawn is drawn
// from a sample of mostDrawn of its cells: more than any picture can show.
const (
	mostHeld  = 4_000_000
	mostDrawn = 2_500_000
)

// frugalHeap is the size in bytes from which the heap is swept more often where
// cells go by as a stream, instead of letting it grow to twice what is in use.
const frugalHeap = 800 << 20

// beFrugal asks for that until the inputs are closed, unless the user's GOMEMLIMIT asks
// for something else.
func beFrugal(in *inputs.Set) {
	if debug.SetMemoryLimit(-1) == math.MaxInt64 {
		debug.SetMemoryLimit(frugalHeap)
		in.CloseLater(spender{})
	}
}

// spender ends frugality.
type spender struct{}

// Close implements io.Closer.
func (spender) Close() error {
	debug.SetMemoryLimit(math.MaxInt64)
	return nil
}

// Findings is what an edition tells of all cells.
type Findings struct {
	Fields  []*weeks.Field   // of all cells, or of a sample to draw from
	Covers  []zonal.Coverage // of the regions on their grid
	Rows    []report.Row
	Figures []output.Figures
	Sampled bool // what holds all cells was written as they went by
}

// Take works out all cells and what regions make of them.
func Take(ctx context.Context, o Order, in *inputs.Set, root *os.Root, say *progress.Teller) (*Findings, error) {
	say.Stage("%s %v", o.working(), in.Normals.Grid())
	if in.Normals.Grid().Cells() > cmp.Or(o.Hold, mostHeld) && !o.AllCells {
		return lookAtSample(ctx, o, in, root, say)
	}
	fields, err := Compute(ctx, o, in)
	if err != nil {
		return nil, err
	}
	say.Notes(in.Notes)
	say.Stage("summing up %d regions", len(in.Areas.Regions))
	covers := zonal.CoverAll(in.Areas, in.Normals.Grid())
	in.NoteOverlaps(covers)
	return &Findings{Fields: fields, Covers: covers, Rows: report.Build(fields, in.Areas, covers), Figures: output.FiguresOf(fields)}, nil
}

// lookAtSample does what Take does without holding more than a sample: it
// writes the crossing grids and the lookups as cells go by.
func lookAtSample(ctx context.Context, o Order, in *inputs.Set, root *os.Root, say *progress.Teller) (*Findings, error) {
	beFrugal(in)
	r, g, opts := o.Recipe, in.Normals.Grid(), inputs.ComputeOptions(o.Recipe, in)
	sample, err := weeks.NewSample(g, r.Windows, opts, mostDrawn)
	if err != nil {
		return nil, err
	}
	years := weeks.NewYears(g)
	if err := typicalYears(ctx, o, in, years); err != nil {
		return nil, err
	}
	shards, err := lookup.Begin(root, output.LookupIndex(r, in), g, true)
	if err != nil {
		return nil, err
	}
	s := newStream(o, in)
	slabs := weeks.NewSlabs(g, r.Windows, opts, lookup.Band, func(first int, fields []*weeks.Field) error {
		fields[0].Typical = years
		return shards.Rows(first, first, fields, s.sweep.Rows(first, fields[0].Grid().Rows()))
	})
	days, err := openDays(root, r, in, true)
	if err != nil {
		return nil, err
	}
	err = s.run(ctx, years, func(b *weeks.Block) error {
		sample.Take(b)
		return errors.Join(days.write(b), slabs.Take(b))
	})
	if err := errors.Join(err, days.close(err == nil)); err != nil {
		return nil, err
	}
	out := &Findings{Fields: sample.Fields(s.cuts(), years), Rows: report.Tallied(r.Windows, in.Areas, s.tallies), Figures: s.figures(), Sampled: true}
	drawn := out.Fields[0].Grid()
	in.Note("maps, bands and handouts are drawn from %d × %d of the %d × %d cells; tables, crossing grids and lookups hold all", drawn.Rows(), drawn.Cols(), g.Rows(), g.Cols())
	say.Notes(in.Notes)
	say.Stage("summing up %d regions", len(in.Areas.Regions))
	out.Covers = zonal.CoverAll(in.Areas, drawn)
	in.NoteOverlaps(out.Covers)
	report.AddValues(out.Rows, out.Fields, out.Covers)
	return out, shards.End(out.Fields, output.LookupRegions(in), in.Places)
}

// typicalYears reads the typical years of parts, which stand at their ends,
// before their blocks are wanted.
func typicalYears(ctx context.Context, o Order, in *inputs.Set, years *weeks.Years) error {
	if len(o.Parts) == 0 {
		return nil
	}
	_, err := eachPart(ctx, o, in, func(r io.Reader, rows weeks.Span) error {
		return weeks.ReadPart(r, in.Normals.Grid(), o.Recipe.Windows, rows, years, func(*weeks.Block) error { return nil })
	})
	return err
}
