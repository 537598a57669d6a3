package survey

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/problem"
	"weekband/grid/weeks"
)

// merged returns the fields that the parts of an order hold, and the number of
// cells that have normals in some layers only.
func merged(ctx context.Context, o Order, in *inputs.Set) ([]*weeks.Field, int64, error) {
	whole := weeks.NewAssembly(in.Normals.Grid(), o.Recipe.Windows)
	in.Say.Work(in.Normals.Grid().Cells(), "cells")
	partial, err := eachPart(ctx, o, in, func(r io.Reader, rows weeks.Span) error {
		in.Say.Did(rows.Rows() * in.Normals.Grid().Cols())
		return whole.Load(r, rows)
	})
	if err != nil {
		return nil, 0, err
	}
	return whole.Fields(), partial, nil
}

// eachPart gives the rows of all parts of an order to take, from the north, and
// returns the number of cells that have normals in some layers only.
func eachPart(ctx context.Context, o Order, in *inputs.Set, take func(r io.Reader, rows weeks.Span) error) (partial int64, err error) {
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
func fitting(o Order, in *inputs.Set) ([]partFile, error) {
	wrong := new(problem.Report)
	var parts []partFile
	made, rows := keyText(fieldsKey(o.Recipe, in)), in.Normals.Grid().Rows()
	for _, path := range o.Parts {
		p, err := openPart(path)
		switch h := &p.head; {
		case err != nil:
		case h.Program != publish.ProgramName():
			err = fmt.Errorf("%s: it was written by %s, and this is %s; work all parts out and merge them with one program", path, h.Program, publish.ProgramName())
		case h.Made != made:
			err = fmt.Errorf("%s: its rows were worked out from other files or settings than %s names now; work them out again: %s", path, o.Path, o.again(h.span()))
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
func (o Order) again(rows weeks.Span) string {
	return fmt.Sprintf("weekband build %s --rows %s", o.Path, spanText(rows))
}

// onceEach returns an error that names the rows that no part holds, and those
// that two do. Parts come from the north.
func (o Order) onceEach(parts []partFile, rows int) error {
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
