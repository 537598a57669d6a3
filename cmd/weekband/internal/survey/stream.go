package survey

import (
	"context"
	"errors"
	"io"
	"os"
	"sync/atomic"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/progress"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/regions/zonal"
)

// TakeStreamed is Take of a grid of any size: it holds no cells, writes their
// crossing grids under root as they go by, and returns no fields.
func TakeStreamed(ctx context.Context, o Order, in *inputs.Set, root *os.Root, say *progress.Teller) (*Findings, error) {
	beFrugal(in)
	say.Stage("%s %v, %d regions", o.working(), in.Normals.Grid(), len(in.Areas.Regions))
	days, err := openDays(root, o.Recipe, in, false)
	if err != nil {
		return nil, err
	}
	s := newStream(o, in)
	err = s.run(ctx, nil, days.write)
	if err := errors.Join(err, days.close(err == nil)); err != nil {
		return nil, err
	}
	return &Findings{Rows: report.Tallied(o.Recipe.Windows, in.Areas, s.tallies), Figures: s.figures(), Sampled: true}, nil
}

// stream sums up rows of the week grid as they come.
type stream struct {
	order   Order
	in      *inputs.Set
	sweep   *zonal.Sweep
	tallies []*zonal.Tally // of each window
	beyond  atomic.Uint64  // m² beyond the reach of calibration stations
}

func newStream(o Order, in *inputs.Set) *stream {
	s := &stream{order: o, in: in, sweep: zonal.NewSweep(in.Areas, in.Normals.Grid())}
	for range o.Recipe.Windows {
		s.tallies = append(s.tallies, zonal.NewTally(s.sweep))
	}
	return s
}

// run works out all rows, or reads them from parts, gives them to inOrder from
// the north and notes what the user should know. Typical years go into years
// unless that is nil.
func (s *stream) run(ctx context.Context, years *weeks.Years, inOrder func(*weeks.Block) error) (err error) {
	g, windows := s.in.Normals.Grid(), s.order.Recipe.Windows
	s.in.Say.Work(g.Cells(), "cells")
	var partial int64
	if len(s.order.Parts) > 0 {
		partial, err = eachPart(ctx, s.order, s.in, func(r io.Reader, rows weeks.Span) error {
			return weeks.ReadPart(r, g, windows, rows, years, func(b *weeks.Block) error {
				s.in.Say.Did(b.Rows * g.Cols())
				return errors.Join(s.tally(b), inOrder(b))
			})
		})
	} else {
		opts, left := counted(s.in, inputs.ComputeOptions(s.order.Recipe, s.in))
		err = weeks.Stream(ctx, s.in.Normals, windows, opts, years, s.tally, inOrder)
		partial = left.Load()
	}
	notePartial(s.in, partial)
	if err == nil && s.figures()[0].LandKm2() == 0 {
		err = errNoLand
	}
	s.in.Say.Notes(s.in.Notes)
	return s.in.Convert.Restore(err)
}

// tally adds a block to the tallies.
func (s *stream) tally(b *weeks.Block) error {
	covered := s.sweep.Rows(b.First, b.Rows)
	for i, t := range s.tallies {
		w := &b.Windows[i]
		t.Add(&zonal.Cells{First: b.First, Rows: b.Rows, Reason: w.Reason, Day: w.Day, OntimeFrom: w.OntimeFrom, CatchupTo: w.CatchupTo, Error: w.Error}, covered)
	}
	if b.Near == nil {
		return nil
	}
	g := s.in.Normals.Grid()
	for row := range b.Rows {
		n := 0
		for i := row * g.Cols(); i < (row+1)*g.Cols(); i++ {
			if b.Has[i] && b.Near[i] < weeks.BeyondBelow {
				n++
			}
		}
		s.beyond.Add(uint64(float64(n) * g.CellArea(b.First+row) * 1e6))
	}
	return nil
}

// cuts returns the cut of each window.
func (s *stream) cuts() (cuts []season.Day) {
	for _, t := range s.tallies {
		km2, _ := t.Ground()
		cuts = append(cuts, weeks.CutOf(km2))
	}
	return cuts
}

// figures sums up all ground.
func (s *stream) figures() (all []output.Figures) {
	cuts := s.cuts()
	for i, t := range s.tallies {
		f := output.Figures{BeyondKm2: float64(s.beyond.Load()) / 1e6}
		f.WeeksKm2, f.OtherKm2 = t.Ground()
		sums := t.Whole(cuts[i])
		if sums.HasDay {
			f.Quantiles, f.Expected = []float64{sums.P10, sums.Median, sums.P90}, spread.Expected(sums.Error)
		}
		all = append(all, f)
	}
	return all
}
