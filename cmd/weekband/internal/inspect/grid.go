package inspect

import (
	"errors"
	"path/filepath"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/grid/source"
	"weekband/grid/source/profile"
)

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
	for _, path := range paths {
		p, err := profiled(path, variable)
		if err != nil {
			return nil, err
		}
		layers += len(p.Layers)
		parts = append(parts, p)
	}
	p := f.merge(parts, layers)
	f.describe(p)
	f.asNormals(normals, why, layers)
	f.Layers = p.Layers
	f.note(p.Notes...)
	f.Suspicions = append(f.Suspicions, p.Suspicions...)
	f.restore(&in.Convert)
	return f, nil
}

// merge returns the profile of a year in twelve files of one layer as one, of other
// files that of the first, and suspects what does not go together.
func (f *Finding) merge(parts []profile.Profile, layers int) profile.Profile {
	p := parts[0]
	for _, other := range parts[1:] {
		if !other.Grid.Matches(p.Grid) {
			f.suspect("%s lies on another grid: %v", other.Name, other.Grid)
		}
	}
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
	return p
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
