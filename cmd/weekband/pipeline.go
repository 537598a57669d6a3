package main

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sync"

	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
)

// order is what a build is asked for.
type order struct {
	recipe    *recipe.Recipe
	path, out string      // of the recipe, and the folder to write
	allCells  bool        // write the table of cells however long it is
	stream    bool        // hold no grid: write crossing grids and the table of regions only
	hold      int         // cells that may be held at a time, 0 for mostHeld
	kept      *keep.Store // work of earlier builds, nil for none

	portion portion  // of the rows, when only those are wanted
	parts   []string // files of rows that were worked out apart, none when all are to be worked out
}

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
	in.noteUndrawn(r, all.fields)
	say.notes(in.notes)
	pictures, err := draw(ctx, root, o, in, drawings, all.rows)
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

// meanwhile does a job beside what follows and returns what waits for its end.
func meanwhile[T any](job func() (T, error)) (wait func() (T, error)) {
	wait = sync.OnceValues(job)
	go wait()
	return wait
}

// writeFiles writes what is neither picture nor page: tables, data, lookups and
// calendars. cells reports whether the table of cells is among them.
func writeFiles(root *os.Root, o order, in *inputs, all *survey, drawings []drawing) (cells bool, err error) {
	if cells, err = writeTables(root, all, o.allCells); err != nil {
		return cells, err
	}
	if err := writeData(root, in, drawings, !all.sampled); err != nil {
		return cells, err
	}
	if err := writeLookup(root, o.recipe, in, all); err != nil {
		return cells, err
	}
	return cells, writeCalendars(root, o.recipe, in.areas, all.rows)
}

// mostCells is how many cells the grid of an order may have.
func (o order) mostCells() int {
	if o.stream || o.portion != (portion{}) { // neither holds the grid
		return math.MaxInt
	}
	return mostWorked
}

// working says how an order comes by its fields.
func (o order) working() string {
	if n := len(o.parts); n > 0 {
		return fmt.Sprintf("putting together from %d parts", n)
	}
	return "working out"
}

// openChecked opens and checks what the recipe of an order names, the first step of
// an edition.
func openChecked(ctx context.Context, o order, spare func(files ...string) error, say *progress) (*inputs, error) {
	say.stage("reading what %s names", o.path)
	in, err := openInputs(ctx, o.recipe, filepath.Dir(o.path), o.mostCells())
	if err != nil {
		return nil, err
	}
	if err := in.check(o, spare, say); err != nil {
		in.close()
		return nil, err
	}
	return in, nil
}

// check looks at what the recipe of an order names as a whole.
func (in *inputs) check(o order, spare func(files ...string) error, say *progress) error {
	if err := in.hash(o.path); err != nil {
		return err
	}
	if err := spare(append(in.paths(), o.parts...)...); err != nil {
		return err
	}
	in.say = say
	if err := in.keepOnGrid(o.recipe.Regions); err != nil {
		return err
	}
	say.notes(in.notes)
	if err := in.checkInsets(o.recipe.Insets); err != nil {
		return fmt.Errorf("%s: %w", o.path, err)
	}
	return nil
}
