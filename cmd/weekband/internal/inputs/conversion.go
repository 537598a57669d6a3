package inputs

import (
	"fmt"
	"path/filepath"
	"slices"

	"weekband/cmd/weekband/internal/convert"
	"weekband/grid/source"
)

// AsJSON returns the path of a file of polygons, or of its converted copy, with a
// note, when it is neither GeoJSON nor TopoJSON; of several layers the one that is
// named. An error tells what to install, or to run by hand.
func (in *Set) AsJSON(path, layer string) (string, error) {
	in.used("regions", path)
	foreign, err := convert.Polygons(path)
	if err != nil || !foreign {
		return path, err
	}
	for _, part := range convert.Beside(path) {
		in.used("regions", part)
	}
	copied, how, err := in.Convert.Vector(in.ctx, path, layer)
	if err == nil {
		in.Notes = append(in.Notes, converted([]string{path}, how))
	}
	return copied, err
}

// Readable returns paths of rasters with a converted copy in place of every file
// that cannot be read as it is, and what it noted of that. A file that no tool
// converts is an error. role is the key of the recipe that names them.
func (in *Set) Readable(role string, paths []string, variable string) (out, notes []string, err error) {
	out = slices.Clone(paths)
	names := map[string][]string{} // by how they were converted
	var order []string
	for i, p := range paths {
		l, err := source.Open(p, source.Options{Variable: variable})
		if err == nil {
			err = l.Close()
		}
		if err == nil {
			continue
		}
		if !convert.Wanted(err) {
			return nil, nil, err
		}
		var how string
		if out[i], how, err = in.Convert.Raster(in.ctx, p, variable, err); err != nil {
			return nil, nil, err
		}
		for _, part := range convert.Beside(p) {
			in.used(role, part)
		}
		if names[how] == nil {
			order = append(order, how)
		}
		names[how] = append(names[how], p)
	}
	for _, how := range order {
		notes = append(notes, converted(names[how], how))
	}
	in.Notes = append(in.Notes, notes...)
	return out, notes, nil
}

// converted tells how files were converted.
func converted(paths []string, how string) string {
	first := filepath.Base(paths[0])
	if len(paths) == 1 {
		return first + " was converted " + how
	}
	return fmt.Sprintf("%d files, from %s to %s, were converted %s", len(paths), first, filepath.Base(paths[len(paths)-1]), how)
}
