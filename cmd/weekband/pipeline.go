package main

import (
	"context"
	"fmt"
	"path/filepath"

	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/regions/report"
	"weekband/regions/zonal"
)

// pipeline builds an edition, in the order data flows:
//
//	read ─► curve ─► soil ─► crossing ─► week grid ─► bands, regions ─► pictures ─► pages ─► publish
//
// Everything goes into a fresh folder that takes the place of the previous
// edition at the very end: an error, or a kill, leaves that one as it was.
func pipeline(ctx context.Context, r *recipe.Recipe, recipePath, out string, allCells bool, say *progress) error {
	staging, err := publish.Begin(out)
	if err != nil {
		return err
	}
	defer staging.Discard()
	root := staging.Root()

	say.stage("reading what %s names", recipePath)
	in, err := openInputs(ctx, r, filepath.Dir(recipePath))
	if err != nil {
		return err
	}
	defer in.close()
	in.say = say
	if err := in.hash(recipePath); err != nil {
		return err
	}
	in.keepOnGrid()
	say.notes(in.notes)
	if err := in.checkInsets(r.Insets); err != nil {
		return fmt.Errorf("%s: %w", recipePath, err)
	}

	say.stage("working out %v", in.normals.Grid())
	fields, err := compute(ctx, r, in)
	if err != nil {
		return err
	}
	say.notes(in.notes)
	say.stage("summing up %d regions", len(in.areas.Regions))
	covers := zonal.CoverAll(in.areas, in.normals.Grid())
	rows := report.Build(fields, in.areas, covers)

	say.stage("cutting bands")
	drawings, err := trace(ctx, fields, r.Maps)
	if err != nil {
		return err
	}
	say.stage("drawing")
	in.noteUndrawn(r, fields)
	say.notes(in.notes)
	pictures, err := draw(ctx, root, r, in, drawings, rows)
	if err != nil {
		return err
	}
	say.stage("writing tables and data")
	cells, err := writeTables(root, fields, rows, allCells)
	if err != nil {
		return err
	}
	if err := writeData(root, in, drawings); err != nil {
		return err
	}
	if err := writeLookup(root, r, in, fields, covers); err != nil {
		return err
	}
	if err := writeCalendars(root, r, in.areas, rows); err != nil {
		return err
	}
	say.stage("writing pages")
	if err := writeSite(ctx, root, r, in, drawings, rows, pictures, cells); err != nil {
		return err
	}
	if err := writeManifest(root, newManifest(r, in, fields)); err != nil {
		return err
	}
	if err := staging.Commit(); err != nil {
		return err
	}
	say.done("done: open %s", filepath.Join(out, "index.html"))
	return nil
}
