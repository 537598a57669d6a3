package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path"
	"sync/atomic"

	"weekband/cmd/weekband/internal/recipe"
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
	say.stage("working out %v, %d regions", in.normals.Grid(), len(in.areas.Regions))
	s := newStream(r, in)
	partial, err := s.run(ctx, root, say)
	in.notePartial(partial)
	if err := in.convert.Restore(err); err != nil {
		return err
	}
	say.notes(in.notes)
	say.stage("writing tables")
	rows := report.Tallied(r.Windows, in.areas, s.tallies)
	if err := writeRegionTables(root, rows); err != nil {
		return err
	}
	return writeManifest(root, newManifest(r, in, s.figures()))
}

// stream sums up rows of the week grid as they come.
type stream struct {
	recipe  *recipe.Recipe
	in      *inputs
	sweep   *zonal.Sweep
	tallies []*zonal.Tally // of each window
	beyond  atomic.Uint64  // m² beyond the reach of calibration stations
}

func newStream(r *recipe.Recipe, in *inputs) *stream {
	s := &stream{recipe: r, in: in, sweep: zonal.NewSweep(in.areas, in.normals.Grid())}
	for range r.Windows {
		s.tallies = append(s.tallies, zonal.NewTally(s.sweep))
	}
	return s
}

// run works out all rows and writes the crossing grids as they come. It returns
// how many cells have normals in some layers only.
func (s *stream) run(ctx context.Context, root *os.Root, say *progress) (partial int64, err error) {
	g := s.in.normals.Grid()
	days, err := s.openDays(root)
	if err != nil {
		return 0, err
	}
	opts := computeOptions(s.recipe, s.in)
	var left atomic.Int64
	say.work(g.Cells(), "cells")
	opts.Done = func(rows, cells int) {
		left.Add(int64(cells))
		say.did(rows * g.Cols())
	}
	err = weeks.Stream(ctx, s.in.normals, s.recipe.Windows, opts, s.tally, days.write)
	if err = errors.Join(err, days.close(err == nil)); err == nil && s.figures()[0].landKm2() == 0 {
		err = errNoLand
	}
	return left.Load(), err
}

// dayFiles are the crossing grids of all windows on their way to files.
type dayFiles struct {
	names []string
	files []*os.File
	grids []*geotiff.Writer
	dated []bool
}

func (s *stream) openDays(root *os.Root) (d *dayFiles, err error) {
	if err := root.MkdirAll(path.Dir(gridFile("")), 0o755); err != nil {
		return nil, err
	}
	d = new(dayFiles)
	for _, w := range s.recipe.Windows {
		name := gridFile(w.ID)
		f, err := root.Create(name)
		if err != nil {
			return nil, errors.Join(err, d.close(false))
		}
		d.names, d.files = append(d.names, name), append(d.files, f)
		out, err := geotiff.NewWriter(f, s.in.normals.Grid(), 1, dayOptions)
		if err != nil {
			return nil, errors.Join(fmt.Errorf("%s: %w", name, err), d.close(false))
		}
		d.grids = append(d.grids, out)
	}
	return d, nil
}

// write appends the rows of a block.
func (d *dayFiles) write(b *weeks.Block) error {
	for i, out := range d.grids {
		strip := &b.Windows[i]
		d.dated = d.dated[:0]
		for _, r := range strip.Reason {
			d.dated = append(d.dated, r.HasDay())
		}
		if err := out.WriteRows(0, strip.Day, d.dated); err != nil {
			return fmt.Errorf("%s: %w", d.names[i], err)
		}
	}
	return nil
}

// close closes all files, after their last lines when they are complete.
func (d *dayFiles) close(complete bool) (err error) {
	for i, f := range d.files {
		if complete {
			if e := d.grids[i].Close(); e != nil {
				err = errors.Join(err, fmt.Errorf("%s: %w", d.names[i], e))
			}
		}
		err = errors.Join(err, f.Close())
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

// figures sums up all ground.
func (s *stream) figures() (all []figures) {
	for _, t := range s.tallies {
		f := figures{beyondKm2: float64(s.beyond.Load()) / 1e6}
		f.weeksKm2, f.otherKm2 = t.Ground()
		sums := t.Whole(weeks.CutOf(f.weeksKm2))
		if sums.HasDay {
			f.quantiles, f.expected = []float64{sums.P10, sums.Median, sums.P90}, spread.Expected(sums.Error)
		}
		all = append(all, f)
	}
	return all
}
