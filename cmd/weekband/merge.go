package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"weekband/grid/problem"
	"weekband/grid/weeks"
)

type mergeCmd struct {
	Recipe string   `arg:"" help:"YAML file that describes the run." complete:"files .yaml .yml"`
	Parts  []string `arg:"" name:"part" help:"Files that builds of it with --rows or --share wrote, which hold every row once." complete:"files .part"`
	Out    string   `help:"Folder to write. Default: out/ and the recipe's name." placeholder:"DIR" complete:"folders" group:"What is written"`

	Stream   bool `help:"Write what build --stream does: the crossing grids, the table of regions and the manifest." group:"What is written"`
	AllCells bool `help:"Write the table of cells even when it has more than two million lines." group:"What is written"`

	cacheFlag
	eventsFlag
}

// Run builds the recipe's edition from rows that were worked out apart.
func (c mergeCmd) Run(ctx context.Context, s *streams) error {
	o := order{path: c.Recipe, out: outOf(c.Recipe, c.Out), allCells: c.AllCells, stream: c.Stream, parts: c.Parts}
	return build(ctx, o, c.Cache, s.say, pipeline)
}

// partName is where the part of some rows of an edition is written: beside it.
func partName(out string, rows weeks.Span) string {
	return fmt.Sprintf("%s-rows-%d-%d.part", filepath.Clean(out), rows.From, rows.To)
}

// partly works out the wanted rows of an order and writes them as a part.
func partly(ctx context.Context, o order, say *progress) error {
	in, err := openChecked(ctx, o, func(...string) error { return nil }, say) // nothing is replaced but a part
	if err != nil {
		return err
	}
	defer in.close()
	g := in.normals.Grid()
	rows, err := o.portion.within(g.Rows())
	if err != nil {
		return err
	}
	if rows.Rows() == 0 {
		say.done("share %d of %d has none of the %d rows; nothing to write", o.portion.share, o.portion.of, g.Rows())
		return nil
	}
	name := partName(o.out, rows)
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	say.stage("working out rows %s of %v", spanText(rows), g)
	say.work(rows.Rows()*g.Cols(), "cells")
	head := partHead{Program: programName(), Made: keyText(fieldsKey(o.recipe, in)), From: rows.From, To: rows.To}
	err = replace(name, func(w io.Writer) error {
		return writePart(w, head, func(w io.Writer) (int64, error) {
			opts, partial := in.counted(computeOptions(o.recipe, in))
			err := weeks.WritePart(ctx, w, in.normals, o.recipe.Windows, opts, rows)
			return partial.Load(), in.convert.Restore(err)
		})
	})
	if err == nil {
		say.done("wrote %s", name)
	}
	return err
}

// merged returns the fields that the parts of an order hold, and the number of
// cells that have normals in some layers only.
func merged(ctx context.Context, o order, in *inputs) ([]*weeks.Field, int64, error) {
	whole := weeks.NewAssembly(in.normals.Grid(), o.recipe.Windows)
	in.say.work(in.normals.Grid().Cells(), "cells")
	partial, err := eachPart(ctx, o, in, func(r io.Reader, rows weeks.Span) error {
		in.say.did(rows.Rows() * in.normals.Grid().Cols())
		return whole.Load(r, rows)
	})
	if err != nil {
		return nil, 0, err
	}
	return whole.Fields(), partial, nil
}

// eachPart gives the rows of all parts of an order to take, from the north, and
// returns the number of cells that have normals in some layers only.
func eachPart(ctx context.Context, o order, in *inputs, take func(r io.Reader, rows weeks.Span) error) (partial int64, err error) {
	parts, err := fitting(o, in)
	if err != nil {
		return 0, err
	}
	for _, p := range parts {
		if err := ctx.Err(); err != nil {
			return 0, err
		}
		if err := p.read(take); err != nil {
			return 0, fmt.Errorf("%s: %w", p.path, err)
		}
		partial += p.partial
	}
	return partial, nil
}

// fitting opens the parts of an order and returns them from the north, or an
// error unless they are of its recipe and hold every row of the grid once.
func fitting(o order, in *inputs) ([]partFile, error) {
	wrong := new(problem.Report)
	var parts []partFile
	made, rows := keyText(fieldsKey(o.recipe, in)), in.normals.Grid().Rows()
	for _, path := range o.parts {
		p, err := openPart(path)
		switch h := &p.head; {
		case err != nil:
		case h.Program != programName():
			err = fmt.Errorf("%s: it was written by %s, and this is %s; work all parts out and merge them with one program", path, h.Program, programName())
		case h.Made != made:
			err = fmt.Errorf("%s: its rows were worked out from other files or settings than %s names now; work them out again: %s", path, o.path, o.again(h.span()))
		case h.From < 0 || h.From >= h.To || h.To > rows:
			err = damagedPart(path)
		}
		wrong.Add(path, err)
		parts = append(parts, p)
	}
	if err := wrong.Err(); err != nil {
		return nil, err
	}
	slices.SortStableFunc(parts, func(a, b partFile) int { return cmp.Compare(a.head.From, b.head.From) })
	return parts, o.onceEach(parts, rows)
}

// again is the command that works rows out.
func (o order) again(rows weeks.Span) string {
	return fmt.Sprintf("weekband build %s --rows %s", o.path, spanText(rows))
}

// onceEach returns an error that names the rows that no part holds, and those
// that two do. Parts come from the north.
func (o order) onceEach(parts []partFile, rows int) error {
	wrong := new(problem.Report)
	missing := func(from, to int) {
		if from < to {
			s := weeks.Span{From: from, To: to}
			wrong.Add("missing", fmt.Errorf("rows %s are in no part; work them out: %s", spanText(s), o.again(s)))
		}
	}
	done, last := 0, "" // rows before done are there; the part that reaches so far
	for _, p := range parts {
		h := &p.head
		missing(done, h.From)
		if h.From < done {
			twice := weeks.Span{From: h.From, To: min(h.To, done)}
			wrong.Add("twice", fmt.Errorf("rows %s are in %s and in %s; leave one of them out", spanText(twice), last, p.path))
		}
		if h.To > done {
			done, last = h.To, p.path
		}
	}
	missing(done, rows)
	return wrong.Err()
}
