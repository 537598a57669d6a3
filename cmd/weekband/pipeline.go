package main

import (
	"cmp"
	"context"
	"os"
	"path/filepath"
	"sync"

	"weekband/cmd/weekband/internal/publish"
)

// pipeline builds an edition and puts it in the place of the previous one at
// the very end: an error, or a kill, leaves that one as it was.
func pipeline(ctx context.Context, o order, say *progress) (err error) {
	staging, err := publish.Begin(o.out)
	if err != nil {
		return err
	}
	defer func() { err = staging.End(err) }()
	say.remarks(staging.Notes())
	told := len(staging.Notes())
	write := edition
	if o.stream {
		write = streamed
	}
	if err := write(ctx, o, staging.Root(), staging.Spare, say); err != nil {
		return err
	}
	if err := staging.Commit(ctx); err != nil {
		return err
	}
	say.remarks(staging.Notes()[told:])
	if o.stream {
		say.done("done: see %s", filepath.Join(o.out, tableCSV))
		return nil
	}
	say.done("done: open %s", filepath.Join(o.out, "index.html"))
	return nil
}

// edition writes an edition into a fresh folder, in the order data flows:
//
//	read ─► curve ─► soil ─► crossing ─► week grid ─► bands, regions ─► pictures ─► pages ─► publish
//
// spare is told what is read, and returns an error when it would go.
func edition(ctx context.Context, o order, root *os.Root, spare func(files ...string) error, say *progress) error {
	r := o.recipe
	in, err := openChecked(ctx, o, spare, say)
	if err != nil {
		return err
	}
	defer in.close()

	all, err := lookAt(ctx, o, in, root, say)
	if err != nil {
		return err
	}
	say.stage("cutting bands")
	drawings, err := trace(ctx, all.fields, r.Maps, detailOf(r, in), o.kept)
	if err != nil {
		return err
	}
	written := meanwhile(func() (bool, error) { return writeFiles(root, o, in, all, drawings) })
	say.stage("drawing")
	noteUndrawn(in, r, all.fields)
	say.notes(in.notes)
	pictures, err := draw(ctx, root, r, o.kept, in, drawings, all.rows)
	say.stage("writing tables and data")
	cells, wrong := written()
	if err := cmp.Or(err, wrong); err != nil {
		return err
	}
	say.stage("writing pages")
	if err := writeSite(ctx, root, r, in, drawings, all.rows, pictures, cells); err != nil {
		return err
	}
	return writeManifest(root, newManifest(r, in, all.figures))
}

// streamed writes what can be told of a grid of any size without holding it:
// the crossing grids, the table of regions and the manifest.
//
//	read ─► curve ─► soil ─► crossing ─► rows of the week grid ─► crossing grids, tallies of regions ─► table
func streamed(ctx context.Context, o order, root *os.Root, spare func(files ...string) error, say *progress) error {
	in, err := openChecked(ctx, o, spare, say)
	if err != nil {
		return err
	}
	defer in.close()

	all, err := lookThrough(ctx, o, in, root, say)
	if err != nil {
		return err
	}
	say.stage("writing tables")
	if err := writeRegionTables(root, all.rows); err != nil {
		return err
	}
	return writeManifest(root, newManifest(o.recipe, in, all.figures))
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
func writeFiles(root *os.Root, o order, in *inputs, all *survey, drawings []drawing) (cells bool, err error) {
	whole := all.fields
	if all.sampled {
		whole = nil
	}
	if cells, err = writeTables(root, all.rows, whole, o.allCells); err != nil {
		return cells, err
	}
	if err := writeData(root, in, drawings, !all.sampled); err != nil {
		return cells, err
	}
	if !all.sampled {
		if err := writeLookup(root, o.recipe, in, all.fields, all.covers); err != nil {
			return cells, err
		}
	}
	return cells, writeCalendars(root, o.recipe, in.areas, all.rows)
}
