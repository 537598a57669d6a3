package survey

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/progress"
	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/weeks"
)

// partName is where the part of some rows of an edition is written: beside it.
func partName(out string, rows weeks.Span) string {
	return fmt.Sprintf("%s-rows-%d-%d.part", filepath.Clean(out), rows.From, rows.To)
}

// TakePart works out the wanted rows of an order and writes them as a part
// beside the folder of the edition, under its name only when it is whole. A share
// that has no row writes nothing.
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
