package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"

	"weekband/cmd/weekband/internal/convert"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/source"
	"weekband/grid/source/profile"
	"weekband/regions"
	"weekband/regions/places"
	"weekband/render/tables"
)

type inspectCmd struct {
	Files    []string `arg:"" help:"A data set: one file, or the twelve files of a year." placeholder:"FILE"`
	Variable string   `help:"Variable of a NetCDF file that holds several." placeholder:"NAME"`
	Object   string   `help:"Object of a TopoJSON file that holds several." placeholder:"NAME"`
	JSON     bool     `help:"Answer as JSON."`
}

// Run tells what files hold and what in them looks wrong.
func (c inspectCmd) Run(ctx context.Context, s *streams) error {
	in := &inputs{ctx: ctx}
	defer in.close()
	found, err := in.inspect(c)
	if err != nil {
		return err
	}
	if c.JSON {
		enc := json.NewEncoder(s.out)
		enc.SetIndent("", "  ")
		return enc.Encode(found)
	}
	_, err = io.WriteString(s.out, found.text())
	return err
}

// finding is what inspect tells of a data set.
type finding struct {
	Files      []string        `json:"files"`
	Kind       string          `json:"kind"` // grid, polygons or places
	Facts      []fact          `json:"facts"`
	Layers     []profile.Layer `json:"layers,omitempty"`
	Notes      []string        `json:"notes"`
	Suspicions []string        `json:"suspicions"`
}

// fact is one line of what a data set holds.
type fact struct {
	Name  string `json:"name"`
	Value string `json:"value"`
}

func (f *finding) fact(name, format string, args ...any) {
	if value := fmt.Sprintf(format, args...); value != "" {
		f.Facts = append(f.Facts, fact{name, value})
	}
}

// inspect finds out what kind of data set the files are.
func (in *inputs) inspect(c inspectCmd) (*finding, error) {
	for _, name := range c.Files {
		if _, err := os.Stat(name); err != nil {
			return nil, err
		}
	}
	first := c.Files[0]
	polygons, err := convert.Polygons(first)
	if err != nil {
		return nil, err
	}
	ending := strings.ToLower(filepath.Ext(first))
	switch {
	case polygons || ending == ".geojson" || ending == ".json" || ending == ".topojson":
		return in.inspectPolygons(first, c.Object)
	case ending == ".csv":
		return in.inspectPlaces(first)
	}
	return in.inspectGrid(c.Files, c.Variable)
}

// inspectGrid tells of rasters.
func (in *inputs) inspectGrid(files []string, variable string) (*finding, error) {
	paths, _, err := in.readable(files, variable)
	if err != nil {
		return nil, err
	}
	f := &finding{Files: files, Kind: "grid"}
	var parts []profile.Profile
	for _, path := range paths {
		l, err := source.Open(path, source.Options{Variable: variable})
		if err != nil {
			return nil, err
		}
		p, err := profile.Of(l)
		if err := errors.Join(err, l.Close()); err != nil {
			return nil, err
		}
		parts = append(parts, p)
	}
	p := parts[0]
	if len(parts) == 12 {
		p = profile.Merge(parts)
	} else if len(parts) > 1 {
		f.Suspicions = append(f.Suspicions, fmt.Sprintf("%d files; normals are one file, or twelve of one layer each. Only the first is described", len(parts)))
	}
	for _, other := range parts {
		if !other.Grid.Matches(p.Grid) {
			f.Suspicions = append(f.Suspicions, fmt.Sprintf("%s lies on another grid: %v", other.Name, other.Grid))
		}
	}
	f.describe(p)
	f.unit(paths, variable, len(p.Layers))
	f.Layers = p.Layers
	f.Notes = append(f.Notes, in.notes...)
	f.Notes = append(f.Notes, p.Notes...)
	f.Suspicions = append(f.Suspicions, p.Suspicions...)
	return f, nil
}

// describe lists what a profile tells.
func (f *finding) describe(p profile.Profile) {
	g := p.Grid
	f.fact("format", "%s", p.Format)
	f.fact("variable", "%s", p.Variable)
	f.fact("long name", "%s", p.LongName)
	f.fact("grid", "%d rows × %d columns", g.Rows(), g.Cols())
	f.fact("edges", "%v", g.Box())
	size := math.Sqrt(g.CellArea(g.Rows() / 2))
	f.fact("cells", "%.6g° × %.6g°, about %.3g km in the middle", g.StepLon(), g.StepLat(), size)
	f.fact("reference system", "%s", p.CRS)
	f.fact("missing is written", "%s", p.NoData)
	f.fact("layers", "%d", len(p.Layers))
}

// unit tells how the numbers would be understood as normals.
func (f *finding) unit(paths []string, variable string, layers int) {
	if layers != 12 && layers != 365 && layers != 366 {
		f.fact("as normals", "no: %d layers, and normals have 12 or 365", layers)
		return
	}
	n, err := source.OpenNormals(paths, source.NormalsOptions{Variable: variable, Unit: "auto"})
	if err != nil {
		f.fact("as normals", "not without help")
		f.Suspicions = append(f.Suspicions, err.Error())
		return
	}
	defer n.Close()
	scale, why := n.Scale()
	f.fact("as normals", "in unit %v: %s", scale, why)
	f.Notes = append(f.Notes, n.Notes()...)
}

// inspectPolygons tells of regions.
func (in *inputs) inspectPolygons(path, object string) (*finding, error) {
	if err := in.readRegions(recipe.Regions{File: path, Object: object}); err != nil {
		return nil, err
	}
	f := &finding{Files: []string{path}, Kind: "polygons", Notes: in.notes}
	area := 0.0
	for _, r := range in.areas.Regions {
		area += regions.Area(r.Shape)
	}
	f.fact("regions", "%d", len(in.areas.Regions))
	f.fact("edges", "%v", in.areas.Bounds())
	f.fact("area", "%.0f km² in all", area)
	for _, r := range in.areas.Regions[:min(3, len(in.areas.Regions))] {
		f.fact("such as", "id %s, name %s", r.ID, r.Name)
	}
	return f, nil
}

// inspectPlaces tells of a list of places.
func (in *inputs) inspectPlaces(path string) (*finding, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	list, err := places.Decode(file, path)
	if err != nil {
		return nil, fmt.Errorf("%w\n    as a list of places; tables of stations are read by a build, key sites", err)
	}
	f := &finding{Files: []string{path}, Kind: "places"}
	f.fact("places", "%d", len(list))
	if len(list) == 0 {
		return f, nil
	}
	box := grid.Box{West: 180, East: -180, South: 90, North: -90}
	seen := map[string]int{}
	for _, p := range list {
		box.West, box.East = min(box.West, p.At.Lon), max(box.East, p.At.Lon)
		box.South, box.North = min(box.South, p.At.Lat), max(box.North, p.At.Lat)
		seen[places.Fold(p.Name)]++
	}
	f.fact("edges", "%v", box)
	double := 0
	for _, n := range seen {
		if n > 1 {
			double += n
		}
	}
	if double > 0 {
		f.Notes = append(f.Notes, fmt.Sprintf("%d places share their name with another", double))
	}
	return f, nil
}

// text writes a finding for people.
func (f *finding) text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s\n", f.Files[0], f.Kind)
	for _, fact := range f.Facts {
		fmt.Fprintf(&b, "  %-19s %s\n", fact.Name, fact.Value)
	}
	if len(f.Layers) > 0 {
		fmt.Fprintf(&b, "\n  %5s %10s %10s %10s %9s  %s\n", "layer", "least", "mean", "most", "missing", "name")
	}
	for i, l := range f.Layers {
		if i == 12 && len(f.Layers) > 20 {
			fmt.Fprintf(&b, "  and %d more; --json has all\n", len(f.Layers)-i)
			break
		}
		fmt.Fprintf(&b, "  %5d %10.6g %10.6g %10.6g %8.1f%%  %s\n", i+1, tables.Round(l.Min, 3), tables.Round(l.Mean, 3), tables.Round(l.Max, 3), 100*l.Missing, l.Name)
	}
	for _, n := range f.Notes {
		fmt.Fprintf(&b, "\nnote: %s\n", n)
	}
	for _, s := range f.Suspicions {
		fmt.Fprintf(&b, "\nlook at this: %s\n", s)
	}
	if len(f.Suspicions) == 0 {
		b.WriteString("\nNothing looks wrong.\n")
	}
	return b.String()
}
