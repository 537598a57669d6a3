package main

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

	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/weeks"
)

// compute works out the fields, or takes them from parts or kept work, and notes
// cells that had to be left out.
func compute(ctx context.Context, o order, in *inputs) ([]*weeks.Field, error) {
	from := keptFields
	if len(o.parts) > 0 {
		from = merged
	}
	fields, partial, err := from(ctx, o, in)
	notePartial(in, partial)
	if err == nil && fields[0].Land() == 0 {
		err = errNoLand
	}
	return fields, in.convert.Restore(err)
}

var errNoLand = errors.New("normals: no cell has a temperature in all months, so there is nothing to map; want files over the same ground: is one empty, upside down or of another place?")

// notePartial says how many cells had to be left out.
func notePartial(in *inputs, cells int64) {
	if cells > 0 {
		in.note("%d cells have a temperature in some months only and are left out; does one of the files cover other ground, or stand upside down?", cells)
	}
}

// keptFields returns the fields and the number of cells that have normals in
// some layers only.
func keptFields(ctx context.Context, o order, in *inputs) ([]*weeks.Field, int64, error) {
	g := in.normals.Grid()
	if o.kept == nil || g.Cells() > mostHeld { // reading more back is no faster than working it out
		return workOut(ctx, o.recipe, in)
	}
	key := fieldsKey(o.recipe, in)
	if data, ok := o.kept.Get(key); ok {
		var partial int64
		r := bytes.NewReader(data)
		if err := binary.Read(r, binary.LittleEndian, &partial); err == nil {
			if fields, err := weeks.Load(r, g, o.recipe.Windows); err == nil {
				return fields, partial, nil
			}
		}
	}
	fields, partial, err := workOut(ctx, o.recipe, in)
	if err != nil {
		return nil, 0, err
	}
	var data bytes.Buffer
	if binary.Write(&data, binary.LittleEndian, partial) == nil && weeks.Save(&data, fields) == nil {
		o.kept.Put(key, data.Bytes())
	}
	return fields, partial, nil
}

func workOut(ctx context.Context, r *recipe.Recipe, in *inputs) ([]*weeks.Field, int64, error) {
	in.say.work(in.normals.Grid().Cells(), "cells")
	opts, partial := counted(in, computeOptions(r, in))
	fields, err := weeks.Compute(ctx, in.normals, r.Windows, opts)
	return fields, partial.Load(), err
}

// counted makes options tell of cells as they are done, and count those that have
// normals in some layers only.
func counted(in *inputs, opts weeks.Options) (weeks.Options, *atomic.Int64) {
	partial := new(atomic.Int64)
	cols := in.normals.Grid().Cols()
	opts.Done = func(rows, cells int) {
		partial.Add(int64(cells))
		in.say.did(rows * cols)
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
func fieldsKey(r *recipe.Recipe, in *inputs) (k keep.Key) {
	sum := sha256.New()
	fmt.Fprintf(sum, "fields on %#v\n", in.normals.Grid())
	for _, f := range in.files {
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
	exact, err := json.Marshal([]any{r.Normals, r.Grid, r.Soil, windows, in.unit})
	if err != nil {
		panic("kept fields: " + err.Error()) // types of our own
	}
	sum.Write(exact)
	sum.Sum(k[:0])
	return k
}
