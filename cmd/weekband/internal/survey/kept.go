package survey

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"sync/atomic"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/weeks"
)

// Compute works out the fields, or takes them from parts or kept work, and notes
// cells that had to be left out.
func Compute(ctx context.Context, o Order, in *inputs.Set) ([]*weeks.Field, error) {
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

// keptFields returns the fields and the number of cells that have normals in
// some layers only.
func keptFields(ctx context.Context, o Order, in *inputs.Set) ([]*weeks.Field, int64, error) {
	g := in.Normals.Grid()
	if o.Kept == nil || g.Cells() > mostHeld { // reading more back is no faster than working it out
		return workOut(ctx, o.Recipe, in)
	}
	key := fieldsKey(o.Recipe, in)
	if data, ok := o.Kept.Get(key); ok {
		var partial int64
		r := bytes.NewReader(data)
		if err := binary.Read(r, binary.LittleEndian, &partial); err == nil {
			if fields, err := weeks.Load(r, g, o.Recipe.Windows); err == nil {
				return fields, partial, nil
			}
		}
	}
	fields, partial, err := workOut(ctx, o.Recipe, in)
	if err != nil {
		return nil, 0, err
	}
	var data bytes.Buffer
	if binary.Write(&data, binary.LittleEndian, partial) == nil && weeks.Save(&data, fields) == nil {
		o.Kept.Put(key, data.Bytes())
	}
	return fields, partial, nil
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

// shownOnly are the settings that move no day of any cell, and filesShownOnly
// the roles of such files; all others, whatever they are, count.
var (
	shownOnly = regexp.MustCompile(`^(title|credits|edition|published|earlier\[.*|places|regions\[.*|maps|worth_of|relief|insets\[.*|size|palette|logo|paper|address|handouts|language|dates|windows\[[^\]]*\]\.title)$`)

	filesShownOnly = []string{"recipe", "regions", "places", "logo"}
)

// fieldsKey sums up all that fields are worked out from: the files, whatever
// their names, and the settings that can move a day.
func fieldsKey(r *recipe.Recipe, in *inputs.Set) (k keep.Key) {
	sum := sha256.New()
	fmt.Fprintf(sum, "fields on %#v\n", in.Normals.Grid())
	for _, f := range in.Files {
		if !slices.Contains(filesShownOnly, f.Role) {
			fmt.Fprintf(sum, "%q %d %s\n", f.Role, f.Bytes, f.SHA256)
		}
	}
	settings := r.Settings()
	for _, name := range slices.Sorted(maps.Keys(settings)) {
		if !shownOnly.MatchString(name) {
			fmt.Fprintf(sum, "%q %q\n", name, settings[name])
		}
	}
	// Settings are rounded as people read them; these are exact.
	windows := slices.Clone(r.Windows)
	for i := range windows {
		windows[i].Title = ""
	}
	exact, err := json.Marshal([]any{r.Normals, r.Grid, r.Soil, windows, in.Unit})
	if err != nil {
		panic("kept fields: " + err.Error()) // types of our own
	}
	sum.Write(exact)
	sum.Sum(k[:0])
	return k
}
