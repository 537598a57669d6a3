package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"sync/atomic"

	"weekband/grid/problem"
	"weekband/grid/weeks"
)

type mergeCmd struct {
	Recipe string   `arg:"" help:"YAML file that describes the run." placeholder:"RECIPE"`
	Parts  []string `arg:"" help:"Files that builds of it with --rows or --share wrote, which hold every row once." placeholder:"PART"`
	Out    string   `help:"Folder to write; out/ and the recipe's name if not given." placeholder:"DIR"`

	AllCells bool `help:"Write the table of cells even when it has more than two million lines."`

	cacheFlag
	eventsFlag
}

// Run builds the recipe's edition from rows that were worked out apart.
func (c mergeCmd) Run(ctx context.Context, s *streams) error {
	o := order{path: c.Recipe, out: outOf(c.Recipe, c.Out), allCells: c.AllCells, parts: c.Parts}
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
	say.stage("working out rows %s of %v", spanText(rows), g)
	opts := computeOptions(o.recipe, in)
	var partial atomic.Int64
	say.work(rows.Rows()*g.Cols(), "cells")
	opts.Done = func(rows, cells int) {
		partial.Add(int64(cells))
		say.did(rows * g.Cols())
	}
	part, err := weeks.ComputePart(ctx, in.normals, o.recipe.Windows, opts, rows)
	if err != nil {
		return in.convert.Restore(err)
	}
	name := partName(o.out, rows)
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	head := partHead{Program: programName(), Made: keyText(fieldsKey(o.recipe, in)), From: rows.From, To: rows.To, Partial: partial.Load()}
	if err := replace(name, func(w io.Writer) error { return writePart(w, head, part) }); err != nil {
		return err
	}
	say.done("wrote %s", name)
	return nil
}

// merged returns the fields that the parts of an order hold, and the number of
// cells that have normals in some layers only.
func merged(ctx context.Context, o order, in *inputs) ([]*weeks.Field, int64, error) {
	heads, err := fitting(o, in)
	if err != nil {
		return nil, 0, err
	}
	g := in.normals.Grid()
	whole := weeks.NewAssembly(g, o.recipe.Windows)
	var partial int64
	in.say.work(g.Rows()*g.Cols(), "cells")
	for i, head := range heads {
		if err := ctx.Err(); err != nil {
			return nil, 0, err
		}
		if err := readPart(o.parts[i], head, whole); err != nil {
			return nil, 0, err
		}
		partial += head.Partial
		in.say.did(head.span().Rows() * g.Cols())
	}
	return whole.Fields(), partial, nil
}

// fitting reads the heads of the parts of an order, and returns an error unless
// they are of its recipe and hold every row of the grid once.
func fitting(o order, in *inputs) ([]partHead, error) {
	wrong := new(problem.Report)
	heads := make([]partHead, len(o.parts))
	made, rows := keyText(fieldsKey(o.recipe, in)), in.normals.Grid().Rows()
	for i, path := range o.parts {
		head, err := readHead(path)
		switch {
		case err != nil:
		case head.Program != programName():
			err = fmt.Errorf("%s: it was written by %s, and this is %s; work all parts out and merge them with one program", path, head.Program, programName())
		case head.Made != made:
			err = fmt.Errorf("%s: its rows were worked out from other files or settings than %s names now; work them out again: %s", path, o.path, o.again(head.span()))
		case head.From < 0 || head.From >= head.To || head.To > rows:
			err = damagedPart(path)
		}
		wrong.Add(path, err)
		heads[i] = head
	}
	if err := wrong.Err(); err != nil {
		return nil, err
	}
	return heads, o.onceEach(heads, rows)
}

// again is the command that works rows out.
func (o order) again(rows weeks.Span) string {
	return fmt.Sprintf("weekband build %s --rows %s", o.path, spanText(rows))
}

// onceEach returns an error that names the rows that no part holds, and those
// that two do.
func (o order) onceEach(heads []partHead, rows int) error {
	wrong := new(problem.Report)
	order := make([]int, len(heads)) // from the north
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(heads[a].From, heads[b].From) })
	missing := func(from, to int) {
		if from < to {
			s := weeks.Span{From: from, To: to}
			wrong.Add("missing", fmt.Errorf("rows %s are in no part; work them out: %s", spanText(s), o.again(s)))
		}
	}
	done, last := 0, -1 // rows before done are there; the part that reaches so far
	for _, i := range order {
		h := heads[i]
		missing(done, h.From)
		if h.From < done {
			wrong.Add("twice", fmt.Errorf("rows %s are in %s and in %s; leave one of them out", spanText(weeks.Span{From: h.From, To: min(h.To, done)}), o.parts[last], o.parts[i]))
		}
		if h.To > done {
			done, last = h.To, i
		}
	}
	missing(done, rows)
	return wrong.Err()
}
