package survey

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/progress"
	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/problem"
	"weekband/grid/weeks"
)

// partName is where the part of some rows of an edition is written: beside it.
func partName(out string, rows weeks.Span) string {
	return fmt.Sprintf("%s-rows-%d-%d.part", filepath.Clean(out), rows.From, rows.To)
}

// TakePart works out the wanted rows of an order and writes them as a part.
func TakePart(ctx context.Context, o Order, say *progress.Teller) error {
	in, err := Open(ctx, o, func(...string) error { return nil }, say) // nothing is replaced but a part
	if err != nil {
		return err
	}
	defer in.Close()
	g := in.Normals.Grid()
	rows, err := o.Portion.within(g.Rows())
	if err != nil {
		return err
	}
	if rows.Rows() == 0 {
		say.Done("share %d of %d has none of the %d rows; nothing to write", o.Portion.share, o.Portion.of, g.Rows())
		return nil
	}
	name := partName(o.Out, rows)
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		return err
	}
	say.Stage("working out rows %s of %v", spanText(rows), g)
	say.Work(rows.Rows()*g.Cols(), "cells")
	head := partHead{Program: publish.ProgramName(), Made: keyText(fieldsKey(o.Recipe, in)), From: rows.From, To: rows.To}
	err = publish.File(name, func(w io.Writer) error {
		return writePart(w, head, func(w io.Writer) (int64, error) {
			opts, partial := counted(in, inputs.ComputeOptions(o.Recipe, in))
			err := weeks.WritePart(ctx, w, in.Normals, o.Recipe.Windows, opts, rows)
			return partial.Load(), in.Convert.Restore(err)
		})
	})
	if err == nil {
		say.Done("wrote %s", name)
	}
	return err
}

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
