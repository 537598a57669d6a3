package survey

import (
	"context"
	"errors"
	"sync/atomic"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/weeks"
)

// compute works out the fields, or takes them from parts or kept work, and notes
// cells that had to be left out.
func compute(ctx context.Context, o Order, in *inputs.Set) ([]*weeks.Field, error) {
	from := keptFields
	if len(o.Parts) > 0 {
		from = merged
	}
	fields, partial, err := from(ctx, o, in)
	notePartial(in, partial)
	if err == nil && fields[0].Land() == 0 {
		err = errNoLand
	}
	return fields, in.Convert.Restore(err)
}

var errNoLand = errors.New("normals: no cell has a temperature in all months, so there is nothing to map; want files over the same ground: is one empty, upside down or of another place?")

// notePartial says how many cells had to be left out.
func notePartial(in *inputs.Set, cells int64) {
	if cells > 0 {
		in.Note("%d cells have a temperature in some months only and are left out; does one of the files cover other ground, or stand upside down?", cells)
	}
}

func workOut(ctx context.Context, r *recipe.Recipe, in *inputs.Set) ([]*weeks.Field, int64, error) {
	in.Say.Work(in.Normals.Grid().Cells(), "cells")
	opts, partial := counted(in, inputs.ComputeOptions(r, in))
	fields, err := weeks.Compute(ctx, in.Normals, r.Windows, opts)
	return fields, partial.Load(), err
}

// counted makes options tell of cells as they are done, and count those that have
// normals in some layers only.
func counted(in *inputs.Set, opts weeks.Options) (weeks.Options, *atomic.Int64) {
	partial := new(atomic.Int64)
	cols := in.Normals.Grid().Cols()
	opts.Done = func(rows, cells int) {
		partial.Add(int64(cells))
		in.Say.Did(rows * cols)
	}
	return opts, partial
}
