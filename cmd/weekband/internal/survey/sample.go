package survey

import (
	"context"
	"errors"
	"io"
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/progress"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/lookup"
)

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
	out.sumUpSample(in, say)
	return out, shards.End(out.Fields, output.LookupRegions(in), in.Places)
}

// sumUpSample adds what regions make of a sample to what they make of all cells,
// and notes that pictures are drawn from it.
func (f *Findings) sumUpSample(in *inputs.Set, say *progress.Teller) {
	all, drawn := in.Normals.Grid(), f.Fields[0].Grid()
	in.Note("maps, bands and handouts are drawn from %d × %d of the %d × %d cells; tables, crossing grids and lookups hold all", drawn.Rows(), drawn.Cols(), all.Rows(), all.Cols())
	say.Notes(in.Notes)
	say.Stage("summing up %d regions", len(in.Areas.Regions))
	f.Covers = zonal.CoverAll(in.Areas, drawn)
	in.NoteOverlaps(f.Covers)
	report.AddValues(f.Rows, f.Fields, f.Covers)
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
