package inspect

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/convert"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/usage"
	"weekband/grid/source"
	"weekband/grid/source/profile"
)

// jsonEndings are those of files with polygons as JSON: whole documents, and
// features one after the other.
var jsonEndings = []string{".geojson", ".json", ".topojson", ".geojsons", ".geojsonl", ".ndjson"}

// Files tells what a data set holds: one file, or the twelve of a year.
// variable names one of a NetCDF file, object one of a TopoJSON file; either may
// be empty.
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

// inspectGrid tells of rasters.
func inspectGrid(in *inputs.Set, files []string, variable string) (*Finding, error) {
	paths, notes, err := in.Readable("", files, variable)
	if err != nil {
		return nil, err
	}
	f := newFinding("grid", files...)
	f.note(notes...)
	normals, why := source.OpenNormals(paths, source.NormalsOptions{Variable: variable, Unit: "auto"})
	if why == nil {
		defer normals.Close()
		paths = inOrder(paths, normals.Files())
	}
	var parts []profile.Profile
	layers := 0
	for i, path := range paths {
		p, err := profiled(path, variable)
		if err != nil {
			return nil, err
		}
		if i > 0 && !p.Grid.Matches(parts[0].Grid) {
			f.suspect("%s lies on another grid: %v", path, p.Grid)
		}
		layers += len(p.Layers)
		parts = append(parts, p)
	}
	p := parts[0]
	switch {
	case len(parts) == 12 && layers == 12:
		p = profile.Merge(parts)
		for i := range p.Layers {
			if p.Layers[i].Name == parts[i].Name {
				p.Layers[i].Name = filepath.Base(parts[i].Name)
			}
		}
	case len(parts) > 1:
		f.suspect("%d files with %d layers; normals are one file of 12 or 365 layers, or twelve files of one. Only the first is described", len(parts), layers)
	}
	f.describe(p)
	f.asNormals(normals, why, layers)
	f.Layers = p.Layers
	f.note(p.Notes...)
	f.Suspicions = append(f.Suspicions, p.Suspicions...)
	f.restore(&in.Convert)
	return f, nil
}

// profiled reads a file once.
func profiled(path, variable string) (profile.Profile, error) {
	l, err := source.Open(path, source.Options{Variable: variable})
	if err != nil {
		return profile.Profile{}, err
	}
	p, err := profile.Of(l)
	return p, errors.Join(err, l.Close())
}

// inOrder returns the files of a year in the order of its months, others as
// they are.
func inOrder(paths, months []string) []string {
	if len(paths) == len(months) {
		return months
	}
	return paths
}

// describe lists what a profile tells.
func (f *Finding) describe(p profile.Profile) {
	g := p.Grid
	f.fact("format", "%s", p.Format)
	f.fact("variable", "%s", p.Variable)
	f.fact("long name", "%s", p.LongName)
	f.fact("grid", "%d rows × %d columns", g.Rows(), g.Cols())
	f.fact("edges", "%v", g.Box())
	wide, high := p.CellKm()
	f.fact("cells", "%.6g° × %.6g° (longitude × latitude), in the middle about %.3g × %.3g km", g.StepLon(), g.StepLat(), wide, high)
	f.fact("reference system", "%s", p.CRS)
	f.fact("unit as written", "%s", orNothing(p.Unit))
	f.fact("missing as written", "%s", orNothing(p.NoData))
	f.fact("layers", "%d", len(p.Layers))
}

func orNothing(s string) string {
	if s == "" {
		return "nothing"
	}
	return s
}

// asNormals tells how the numbers would be understood as normals, or why they
// are none.
func (f *Finding) asNormals(n *source.Normals, why error, layers int) {
	switch {
	case layers == 1:
		f.fact("as normals", "no: one layer, and normals have 12 or 365")
	case layers != 12 && layers != 365 && layers != 366:
		f.fact("as normals", "no: %d layers, and normals have 12 or 365", layers)
	case why != nil:
		f.fact("as normals", "not without help")
		f.suspect("%v", why)
	default:
		scale, told := n.Scale()
		f.fact("as normals", "%d layers in unit %v: %s", n.Layers(), scale, told)
		f.note(n.Notes()...)
	}
}
