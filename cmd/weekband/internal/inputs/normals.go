package inputs

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"weekband/cmd/weekband/internal/convert"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/source"
)

// readNormals opens the normals and their deviations and brings them to the
// wanted grid.
func (in *Set) readNormals(r *recipe.Recipe) error {
	if r.Normals.Sites != "" {
		return in.readStations(r)
	}
	files, err := in.openFiles(r.Normals.Files, r.Normals, false)
	if err != nil {
		return err
	}
	scale, why := files.Scale()
	in.Normals, in.Unit = files, fmt.Sprintf("%v: %s", scale, why)
	if len(r.Normals.SD) > 0 {
		sd, err := in.openFiles(r.Normals.SD, r.Normals, true)
		if err != nil {
			return fmt.Errorf("standard deviations: %w", err)
		}
		in.SD = sd
	}
	return in.regrid(r.Grid)
}

// openFiles opens the files that match the patterns.
func (in *Set) openFiles(patterns []string, n recipe.Normals, deviation bool) (*source.Normals, error) {
	role := "normals"
	if deviation {
		role = "sd"
	}
	paths, err := in.matching(patterns)
	if err != nil {
		return nil, err
	}
	unit := "auto"
	if n.Unit != 0 {
		unit = n.Unit.String()
	}
	for _, p := range paths {
		in.used(role, p)
	}
	opts := source.NormalsOptions{Variable: n.Variable, Unit: unit, Deviation: deviation}
	normals, err := source.OpenNormals(paths, opts)
	if convert.Wanted(err) {
		var notes []string
		if paths, notes, err = in.Readable(role, paths, n.Variable); err != nil {
			return nil, err
		}
		if normals, err = source.OpenNormals(paths, opts); err != nil {
			return nil, fmt.Errorf("%w\n    %s", err, strings.Join(notes, "\n    "))
		}
	}
	if err != nil {
		return nil, err
	}
	in.open = append(in.open, normals)
	for _, note := range normals.Notes() {
		in.Notes = append(in.Notes, in.Convert.Original(note))
	}
	return normals, nil
}

// matching returns the files that match patterns, or all patterns that match
// none.
func (in *Set) matching(patterns []string) (paths []string, err error) {
	var wrong []error
	for _, pattern := range patterns {
		found, err := filepath.Glob(in.path(pattern))
		if err != nil {
			wrong = append(wrong, fmt.Errorf("pattern %q: %w; want * and ? only, and [ in pairs", pattern, err))
		} else if len(found) == 0 {
			wrong = append(wrong, fmt.Errorf("no file matches %s; names are relative to the folder of the recipe", in.path(pattern)))
		}
		paths = append(paths, found...)
	}
	return paths, errors.Join(wrong...)
}
