package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"sync/atomic"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/season"
	"weekband/grid/source/geotiff"
	"weekband/grid/spread"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/regions/zonal"
)

// streamed writes what can be told of a grid of any size without holding it:
// the crossing grids, the table of regions and the manifest.
//
//	read ─► curve ─► soil ─► crossing ─► rows of the week grid ─► crossing grids, tallies of regions ─► table
func streamed(ctx context.Context, o order, root *os.Root, spare func(files ...string) error, say *progress) error {
	r := o.recipe
	in, err := openChecked(ctx, o, spare, say)
	if err != nil {
		return err
	}
	defer in.close()

	in.beFrugal()
	say.stage("%s %v, %d regions", o.working(), in.normals.Grid(), len(in.areas.Regions))
	days, err := openDays(root, r, in, false)
	if err != nil {
		return err
	}
	s := newStream(o, in)
	err = s.run(ctx, nil, days.write)
	if err := errors.Join(err, days.close(err == nil)); err != nil {
		return err
	}
	say.stage("writing tables")
	rows := report.Tallied(r.Windows, in.areas, s.tallies)
	if err := writeRegionTables(root, rows); err != nil {
		return err
	}
	return writeManifest(root, newManifest(r, in, s.figures()))
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
		opts, left := s.in.counted(computeOptions(s.order.recipe, s.in))
		err = weeks.Stream(ctx, s.in.normals, windows, opts, years, s.tally, inOrder)
		partial = left.Load()
	}
	s.in.notePartial(partial)
	if err == nil && s.figures()[0].landKm2() == 0 {
		err = errNoLand
	}
	s.in.say.notes(s.in.notes)
	return s.in.convert.Restore(err)
}

// dayFiles are the crossing grids of all windows on their way to files, and
// those of their errors.
type dayFiles struct {
	list []*dayFile
	has  []bool
}

// dayFile is one of them.
type dayFile struct {
	name   string
	window int
	error  bool // whether it holds errors
	file   *os.File
	grid   *geotiff.Writer
	vals   []float32
}

// openDays begins the files, with those of errors if wanted and known.
func openDays(root *os.Root, r *recipe.Recipe, in *inputs, errorsToo bool) (d *dayFiles, err error) {
	if err := root.MkdirAll(path.Dir(gridFile("")), 0o755); err != nil {
		return nil, err
	}
	d = new(dayFiles)
	add := func(f dayFile, opts geotiff.WriteOptions) (err error) {
		if f.file, err = root.Create(f.name); err != nil {
			return err
		}
		d.list = append(d.list, &f)
		if f.grid, err = geotiff.NewWriter(f.file, in.normals.Grid(), 1, opts); err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
		return nil
	}
	for i, w := range r.Windows {
		err := add(dayFile{name: gridFile(w.ID), window: i}, dayOptions)
		if err == nil && errorsToo && (in.se != nil || in.offsets != nil) {
			err = add(dayFile{name: errorFile(w.ID), window: i, error: true}, errorOptions)
		}
		if err != nil {
			return nil, errors.Join(err, d.close(false))
		}
	}
	return d, nil
}

// write appends the rows of a block.
func (d *dayFiles) write(b *weeks.Block) error {
	for _, f := range d.list {
		strip := &b.Windows[f.window]
		d.has = d.has[:0]
		for _, r := range strip.Reason {
			d.has = append(d.has, r.HasDay())
		}
		vals := strip.Day
		if f.error {
			f.vals = f.vals[:0]
			for _, v := range strip.Error {
				f.vals = append(f.vals, roundedError(v))
			}
			vals = f.vals
		}
		if err := f.grid.WriteRows(0, vals, d.has); err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
	}
	return nil
}

// close closes all files, after their last lines when they are complete.
func (d *dayFiles) close(complete bool) (err error) {
	for _, f := range d.list {
		if complete {
			if e := f.grid.Close(); e != nil {
				err = errors.Join(err, fmt.Errorf("%s: %w", f.name, e))
			}
		}
		err = errors.Join(err, f.file.Close())
	}
	return err
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
