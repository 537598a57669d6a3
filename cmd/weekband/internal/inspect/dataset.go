package inspect

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/convert"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/usage"
)

// jsonEndings are those of files with polygons as JSON: whole documents, and
// features one after the other.
var jsonEndings = []string{".geojson", ".json", ".topojson", ".geojsons", ".geojsonl", ".ndjson"}

// Files tells what a data set holds: one file, or the twelve of a year. variable
// names one of a NetCDF file, object one of a TopoJSON file; either may be empty.
// A file that cannot be read is an error; files that do not go together are a
// *usage.Error.
func Files(ctx context.Context, files []string, variable, object string) (*Finding, error) {
	in := inputs.Begin(ctx, "")
	defer in.Close()
	f, err := lookAtKind(in, files, variable, object)
	return f, in.Convert.Restore(err)
}

// lookAtKind finds out what kind of data set the files are.
func lookAtKind(in *inputs.Set, files []string, variable, object string) (*Finding, error) {
	for _, name := range files {
		if _, err := os.Stat(name); err != nil {
			return nil, err
		}
	}
	first := files[0]
	polygons, err := convert.Polygons(first)
	if err != nil {
		return nil, err
	}
	ending := filepath.Ext(strings.TrimSuffix(strings.ToLower(first), ".gz"))
	switch {
	case polygons || slices.Contains(jsonEndings, ending):
		if err := alone(files, "a file of polygons"); err != nil {
			return nil, err
		}
		return inspectPolygons(in, first, object)
	case ending == ".csv":
		if err := alone(files, "a list of places"); err != nil {
			return nil, err
		}
		return inspectPlaces(first)
	}
	return inspectGrid(in, files, variable)
}

// alone refuses further files beside one that stands for itself.
func alone(files []string, what string) error {
	if len(files) == 1 {
		return nil
	}
	return usage.Errorf("%s is %s; inspect these one by one, only the twelve grids of a year go together", files[0], what)
}
