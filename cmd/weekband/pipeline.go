package main

import (
	"cmp"
	"context"
	"os"
	"path/filepath"
	"sync"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/pages"
	"weekband/cmd/weekband/internal/progress"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/survey"
	"weekband/cmd/weekband/internal/tracing"
)

// pipeline builds an edition and puts it in the place of the previous one at
// the very end: an error, or a kill, leaves that one as it was.
func pipeline(ctx context.Context, o survey.Order, say *progress.Teller) (err error) {
	staging, err := publish.Begin(o.Out)
	if err != nil {
		return err
	}
	defer func() { err = staging.End(err) }()
	say.Remarks(staging.Notes())
	told := len(staging.Notes())
	write := edition
	if o.Stream {
		write = streamed
	}
	if err := write(ctx, o, staging.Root(), staging.Spare, say); err != nil {
		return err
	}
	if err := staging.Commit(ctx); err != nil {
		return err
	}
	say.Remarks(staging.Notes()[told:])
	if o.Stream {
		say.Done("done: see %s", filepath.Join(o.Out, output.TableCSV))
		return nil
	}
	say.Done("done: open %s", filepath.Join(o.Out, "index.html"))
	return nil
}

// edition writes an edition into a fresh folder, in the order data flows:
//
//	read ─► curve ─► soil ─► crossing ─► week grid ─► regions ─► bands ─► pictures ─► pages ─► publish
//	                                                                └──► tables, data
//
// spare is told what is read, and returns an error when a file of it lies in the
// folder that is to be replaced.
func edition(ctx context.Context, o survey.Order, root *os.Root, spare func(files ...string) error, say *progress.Teller) error {
	r := o.Recipe
	in, err := survey.Open(ctx, o, spare, say)
	if err != nil {
		return err
	}
	defer in.Close()

	all, err := survey.Take(ctx, o, in, root, say)
	if err != nil {
		return err
	}
	say.Stage("cutting bands")
	windows, err := tracing.Trace(ctx, all.Fields, r.Maps, tracing.DetailOf(r, in), o.Kept)
	if err != nil {
		return err
	}
	written := meanwhile(func() (bool, error) { return writeFiles(root, o, in, all, windows) })
	say.Stage("drawing")
	atlas.NoteUndrawn(in, r, all.Fields)
	say.Notes(in.Notes)
	album, err := atlas.Draw(ctx, root, r, o.Kept, in, windows, all.Rows)
	say.Stage("writing tables and data")
	cells, wrong := written()
	if err := cmp.Or(err, wrong); err != nil {
		return err
	}
	say.Stage("writing pages")
	if err := pages.Write(ctx, root, r, in, windows, all.Rows, album, cells); err != nil {
		return err
	}
	return output.WriteManifest(root, output.NewManifest(r, in, all.Figures))
}

// streamed writes what can be told of a grid of any size without holding it:
// the crossing grids, the table of regions and the manifest.
//
//	read ─► curve ─► soil ─► crossing ─► rows of the week grid ─► crossing grids, tallies of regions ─► table
func streamed(ctx context.Context, o survey.Order, root *os.Root, spare func(files ...string) error, say *progress.Teller) error {
	in, err := survey.Open(ctx, o, spare, say)
	if err != nil {
		return err
	}
	defer in.Close()

	all, err := survey.TakeStreamed(ctx, o, in, root, say)
	if err != nil {
		return err
	}
	say.Stage("writing tables")
	if err := output.WriteRegionTables(root, o.Recipe.Language, all.Rows); err != nil {
		return err
	}
	return output.WriteManifest(root, output.NewManifest(o.Recipe, in, all.Figures))
}

// meanwhile does a job beside what follows and returns what waits for its end.
func meanwhile[T any](job func() (T, error)) (wait func() (T, error)) {
	wait = sync.OnceValues(job)
	go wait()
	return wait
}

// writeFiles writes what is neither picture nor page: tables, data, lookups and
// calendars, of a sample only what was not written as all cells went by. cells
// reports whether the table of cells is among them.
func writeFiles(root *os.Root, o survey.Order, in *inputs.Set, all *survey.Findings, windows []tracing.Window) (cells bool, err error) {
	whole := all.Fields
	if all.Sampled {
		whole = nil
	}
	if cells, err = output.WriteTables(root, o.Recipe.Language, all.Rows, whole, o.AllCells); err != nil {
		return cells, err
	}
	if err := output.WriteData(root, in, windows, !all.Sampled); err != nil {
		return cells, err
	}
	if !all.Sampled {
		if err := output.WriteLookup(root, o.Recipe, in, all.Fields, all.Covers); err != nil {
			return cells, err
		}
	}
	return cells, output.WriteCalendars(root, o.Recipe, in.Areas, all.Rows)
}
