package main

import (
	"context"
	"errors"
	"io"
	"os"
	"sync/atomic"

	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/regions/zonal"
)

// lookThrough works out all cells without holding any, and writes their crossing
// grids as they go by. What it returns has no fields.
func lookThrough(ctx context.Context, o order, in *inputs, root *os.Root, say *progress) (*survey, error) {
	beFrugal(in)
	say.stage("%s %v, %d regions", o.working(), in.normals.Grid(), len(in.areas.Regions))
	days, err := openDays(root, o.recipe, in, false)
	if err != nil {
		return nil, err
	}
	s := newStream(o, in)
	err = s.run(ctx, nil, days.write)
	if err := errors.Join(err, days.close(err == nil)); err != nil {
		return nil, err
	}
	return &survey{rows: report.Tallied(o.recipe.Windows, in.areas, s.tallies), figures: s.figures(), sampled: true}, nil
}

// stream sums up rows of the week grid as they come.
type stream struct {
	order   order
	in      *inputs
	sweep   *zonal.Sweep
	tallies []*zonal.Tally // of each window
	beyond  atomic.Uint64  // m² beyond the reach of calibration stations
}

func newStream(o order, in *inputs) *stream {
	s := &stream{order: o, in: in, sweep: zonal.NewSweep(in.areas, in.normals.Grid())}
	for range o.recipe.Windows {
		s.tallies = append(s.tallies, zonal.NewTally(s.sweep))
	}
	return s
}

// run works out all rows, or reads them from parts, gives them to inOrder from
// the north and notes what the user should know. Typical years go into years
// unless that is nil.
func (s *stream) run(ctx context.Context, years *weeks.Years, inOrder func(*weeks.Block) error) (err error) {
	g, windows := s.in.normals.Grid(), s.order.recipe.Windows
	s.in.say.work(g.Cells(), "cells")
	var partial int64
	if len(s.order.parts) > 0 {
		partial, err = eachPart(ctx, s.order, s.in, func(r io.Reader, rows weeks.Span) error {
			return weeks.ReadPart(r, g, windows, rows, years, func(b *weeks.Block) error {
				s.in.say.did(b.Rows * g.Cols())
				return errors.Join(s.tally(b), inOrder(b))
			})
		})
	} else {
		opts, left := counted(s.in, computeOptions(s.order.recipe, s.in))
		err = weeks.Stream(ctx, s.in.normals, windows, opts, years, s.tally, inOrder)
		partial = left.Load()
	}
	notePartial(s.in, partial)
	if err == nil && s.figures()[0].landKm2() == 0 {
		err = errNoLand
	}
	s.in.say.notes(s.in.notes)
	return s.in.convert.Restore(err)
}

// tally adds a block to the tallies.
func (s *stream) tally(b *weeks.Block) error {
	strips := s.sweep.Rows(b.First, b.Rows)
	for i, t := range s.tallies {
		w := &b.Windows[i]
		t.Add(&zonal.Block{First: b.First, Rows: b.Rows, Reason: w.Reason, Day: w.Day, OntimeFrom: w.OntimeFrom, CatchupTo: w.CatchupTo, Error: w.Error}, strips)
	}
	if b.Near == nil {
		return nil
	}
	g := s.in.normals.Grid()
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
func (s *stream) figures() (all []figures) {
	cuts := s.cuts()
	for i, t := range s.tallies {
		f := figures{beyondKm2: float64(s.beyond.Load()) / 1e6}
		f.weeksKm2, f.otherKm2 = t.Ground()
		sums := t.Whole(cuts[i])
		if sums.HasDay {
			f.quantiles, f.expected = []float64{sums.P10, sums.Median, sums.P90}, spread.Expected(sums.Error)
		}
		all = append(all, f)
	}
	return all
}
