package main

import (
	"cmp"
	"context"
	"errors"
	"io"
	"math"
	"os"
	"runtime/debug"

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
func beFrugal(in *inputs) {
	if debug.SetMemoryLimit(-1) == math.MaxInt64 {
		debug.SetMemoryLimit(frugalHeap)
		in.closeLater(spender{})
	}
}

// spender ends frugality.
type spender struct{}

// Close implements io.Closer.
func (spender) Close() error {
	debug.SetMemoryLimit(math.MaxInt64)
	return nil
}

// survey is what an edition tells of all cells.
type survey struct {
	fields  []*weeks.Field   // of all cells, or of a sample to draw from
	covers  []zonal.Coverage // of the regions on their grid
	rows    []report.Row
	figures []figures
	sampled bool // what holds all cells was written as they went by
}

// lookAt works out all cells and what regions make of them.
func lookAt(ctx context.Context, o order, in *inputs, root *os.Root, say *progress) (*survey, error) {
	say.stage("%s %v", o.working(), in.normals.Grid())
	if in.normals.Grid().Cells() > cmp.Or(o.hold, mostHeld) && !o.allCells {
		return lookAtSample(ctx, o, in, root, say)
	}
	fields, err := compute(ctx, o, in)
	if err != nil {
		return nil, err
	}
	say.notes(in.notes)
	say.stage("summing up %d regions", len(in.areas.Regions))
	covers := zonal.CoverAll(in.areas, in.normals.Grid())
	in.noteOverlaps(covers)
	return &survey{fields: fields, covers: covers, rows: report.Build(fields, in.areas, covers), figures: figuresOf(fields)}, nil
}

// lookAtSample does what lookAt does without holding more than a sample: it
// writes the crossing grids and the lookups as cells go by.
func lookAtSample(ctx context.Context, o order, in *inputs, root *os.Root, say *progress) (*survey, error) {
	beFrugal(in)
	r, g, opts := o.recipe, in.normals.Grid(), computeOptions(o.recipe, in)
	sample, err := weeks.NewSample(g, r.Windows, opts, mostDrawn)
	if err != nil {
		return nil, err
	}
	years := weeks.NewYears(g)
	if err := typicalYears(ctx, o, in, years); err != nil {
		return nil, err
	}
	shards, err := lookup.Begin(root, lookupIndex(r, in), g, true)
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
	out := &survey{fields: sample.Fields(s.cuts(), years), rows: report.Tallied(r.Windows, in.areas, s.tallies), figures: s.figures(), sampled: true}
	drawn := out.fields[0].Grid()
	in.note("maps, bands and handouts are drawn from %d × %d of the %d × %d cells; tables, crossing grids and lookups hold all", drawn.Rows(), drawn.Cols(), g.Rows(), g.Cols())
	say.notes(in.notes)
	say.stage("summing up %d regions", len(in.areas.Regions))
	out.covers = zonal.CoverAll(in.areas, drawn)
	in.noteOverlaps(out.covers)
	report.AddValues(out.rows, out.fields, out.covers)
	return out, shards.End(out.fields, lookupRegions(in), in.places)
}

// typicalYears reads the typical years of parts, which stand at their ends,
// before their blocks are wanted.
func typicalYears(ctx context.Context, o order, in *inputs, years *weeks.Years) error {
	if len(o.parts) == 0 {
		return nil
	}
	_, err := eachPart(ctx, o, in, func(r io.Reader, rows weeks.Span) error {
		return weeks.ReadPart(r, in.normals.Grid(), o.recipe.Windows, rows, years, func(*weeks.Block) error { return nil })
	})
	return err
}
