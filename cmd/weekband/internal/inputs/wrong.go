package inputs

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/problem"
)

// named puts the key of the recipe before what is wrong with its files; the
// lines of a report stand for themselves.
func (in *Set) named(key string, err error) error {
	err = in.Convert.Restore(err)
	if parts := problem.Parts(err); len(parts) > 1 {
		var all []error
		for _, one := range parts {
			all = append(all, in.named(key, one))
		}
		return errors.Join(all...)
	}
	if missing, ok := errors.AsType[*fs.PathError](err); ok && errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s: %s: %w; names are relative to the folder of the recipe", key, missing.Path, fs.ErrNotExist)
	}
	_, report := err.(*problem.Report)
	if report || err == nil || strings.HasPrefix(err.Error(), key+": ") {
		return err
	}
	return fmt.Errorf("%s: %w", key, err)
}

// AlsoWrong adds to what is wrong with a recipe what is wrong with the files
// that it names, as far as it can be understood.
func AlsoWrong(ctx context.Context, bad *recipe.Problems, dir string) error {
	wrong := new(problem.Report)
	wrong.Add("recipe", bad.Report())
	r := bad.Understood
	if r == nil {
		return wrong
	}
	in := Begin(ctx, dir)
	defer in.Close()
	wrong.Add("files", in.openLists(r).Err())
	for _, patterns := range [][]string{r.Normals.Files, r.Normals.SD} {
		_, err := in.matching(patterns)
		wrong.Add("normals", in.named("normals", err))
	}
	wrong.Note(r.Notes...)
	wrong.Note(in.Notes...)
	return wrong
}
