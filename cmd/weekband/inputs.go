package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"sync/atomic"

	"weekband/cmd/weekband/internal/convert"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/regrid"
	"weekband/grid/soil"
	"weekband/grid/source"
	"weekband/grid/surface"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/places"
)

// inputs is what a recipe names, opened and checked.
type inputs struct {
	ctx     context.Context // of the build, for the tools that convert
	dir     string          // of the recipe
	terrain *grid.Raster[float32]
	normals weeks.Normals
	unit    string        // of the normals, and how it was told
	sd      weeks.Normals // year-to-year standard deviation, nil without
	se      weeks.Normals // standard error of the normals, nil when not known
	areas   regions.Set
	places  []places.Place
	files   []string // all that were read, as the recipe names them
	notes   []string // what the user should know
	open    []io.Closer
	convert convert.Converter

	stations *surface.Report // how well stations fit, nil when normals are no stations
}

// openInputs opens everything at once, so that a wrong place list does not
// show only after the long work. The error joins what is wrong with each.
func openInputs(ctx context.Context, r *recipe.Recipe, dir string) (*inputs, error) {
	in := &inputs{ctx: ctx, dir: dir}
	var wrong []error
	try := func(what string, err error) {
		if err != nil {
			wrong = append(wrong, fmt.Errorf("%s: %w", what, err))
		}
	}
	if r.Terrain != "" {
		try("terrain", in.readTerrain(r.Terrain))
	}
	for _, file := range r.Regions {
		try("regions", in.readRegions(file))
	}
	if r.Places != "" {
		try("places", in.readPlaces(r.Places))
	}
	if len(wrong) == 0 || r.Terrain == "" { // a terrain that is not there spoils the normals too
		try("normals", in.readNormals(r))
	}
	if len(wrong) > 0 {
		in.close()
		return nil, errors.Join(wrong...)
	}
	return in, nil
}

// readNormals opens the normals and their deviations and brings them to the
// wanted grid.
func (in *inputs) readNormals(r *recipe.Recipe) error {
	if r.Normals.Sites != "" {
		return in.readStations(r)
	}
	files, err := in.openFiles(r.Normals.Files, r.Normals, false)
	if err != nil {
		return err
	}
	scale, why := files.Scale()
	in.normals, in.unit = files, fmt.Sprintf("%v: %s", scale, why)
	if len(r.Normals.SD) > 0 {
		sd, err := in.openFiles(r.Normals.SD, r.Normals, true)
		if err != nil {
			return fmt.Errorf("standard deviations: %w", err)
		}
		in.sd = sd
	}
	return in.regrid(r.Grid)
}

// openFiles opens the files that match the patterns.
func (in *inputs) openFiles(patterns []string, n recipe.Normals, deviation bool) (*source.Normals, error) {
	var paths []string
	for _, pattern := range patterns {
		found, err := filepath.Glob(in.path(pattern))
		if err != nil {
			return nil, fmt.Errorf("pattern %q: %w", pattern, err)
		}
		if len(found) == 0 {
			return nil, fmt.Errorf("no file matches %s; names are relative to the folder of the recipe", in.path(pattern))
		}
		paths = append(paths, found...)
	}
	unit := "auto"
	if n.Unit != 0 {
		unit = n.Unit.String()
	}
	for _, p := range paths {
		in.used(p)
	}
	opts := source.NormalsOptions{Variable: n.Variable, Unit: unit, Deviation: deviation}
	normals, err := source.OpenNormals(paths, opts)
	if convert.Wanted(err) {
		if paths, err = in.converted(paths, n.Variable); err != nil {
			return nil, err
		}
		normals, err = source.OpenNormals(paths, opts)
	}
	if err != nil {
		return nil, err
	}
	in.open = append(in.open, normals)
	in.notes = append(in.notes, normals.Notes()...)
	return normals, nil
}

// converted returns paths with a converted copy in place of every file that
// cannot be read as it is.
func (in *inputs) converted(paths []string, variable string) ([]string, error) {
	out := slices.Clone(paths)
	for i, p := range paths {
		l, err := source.Open(p, source.Options{Variable: variable})
		if err == nil {
			l.Close()
			continue
		}
		if !convert.Wanted(err) {
			return nil, err
		}
		var note string
		if out[i], note, err = in.convert.Raster(in.ctx, p, variable, err); err != nil {
			return nil, err
		}
		in.notes = append(in.notes, note)
	}
	return out, nil
}

// regrid brings the normals and their deviations to the wanted grid.
func (in *inputs) regrid(want recipe.Grid) error {
	onto, err := gridFor(want, in.normals.Grid())
	if err != nil || onto.Matches(in.normals.Grid()) {
		return err
	}
	if in.normals, err = regrid.Onto(in.normals, onto, in.terrain); err != nil {
		return err
	}
	if in.sd != nil { // a spread does not change with height as a mean does
		in.sd, err = regrid.Onto(in.sd, onto, nil)
	}
	return err
}

// gridFor returns the wanted grid, taking from own what the recipe leaves
// out.
func gridFor(want recipe.Grid, own grid.Grid) (grid.Grid, error) {
	box := own.Box()
	if want.Box != nil {
		box = *want.Box
	}
	switch {
	case want.Cell.Metres > 0:
		return grid.SizedKm(box, float64(want.Cell.Metres)/1000)
	case want.Cell.Degrees > 0:
		return grid.Sized(box, want.Cell.Degrees, want.Cell.Degrees)
	}
	return grid.Sized(box, own.StepLon(), own.StepLat())
}

// readTerrain reads elevations.
func (in *inputs) readTerrain(name string) error {
	path := in.path(name)
	in.used(path)
	l, err := source.Open(path, source.Options{})
	if convert.Wanted(err) {
		var copies []string
		if copies, err = in.converted([]string{path}, ""); err != nil {
			return err
		}
		l, err = source.Open(copies[0], source.Options{})
	}
	if err != nil {
		return err
	}
	defer l.Close()
	if l.Count() != 1 {
		return fmt.Errorf("%s: %d layers; want one, of elevations in m", path, l.Count())
	}
	in.terrain = grid.NewRaster[float32](l.Grid())
	for row := range l.Grid().Rows() {
		vals, has := in.terrain.Row(row)
		if err := l.Read(0, row, 1, vals, has); err != nil {
			return err
		}
		for col, ok := range has {
			if v := vals[col]; ok && (v < lowest || v > highest) {
				return fmt.Errorf("%s: row %d, column %d: elevation %g m is outside %d to %d m; is it metres, and does the file say which number stands for the sea?",
					path, row, col, v, lowest, highest)
			}
		}
	}
	return nil
}

// Bounds of elevations on land in m, a little wider than the shore of the
// Dead Sea and the top of Everest.
const (
	lowest  = -500
	highest = 9000
)

func (in *inputs) readRegions(file recipe.Regions) error {
	path := in.path(file.File)
	in.used(path)
	foreign, err := convert.Polygons(path)
	if err != nil {
		return err
	}
	if foreign {
		var note string
		if path, note, err = in.convert.Vector(in.ctx, path); err != nil {
			return err
		}
		in.notes = append(in.notes, note)
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	set, err := regions.Decode(f, path, regions.Options{Object: file.Object, ID: file.ID, Name: file.Name})
	if err != nil {
		return err
	}
	for _, r := range set.Regions {
		if other, twice := in.areas.ByID(r.ID); twice {
			return fmt.Errorf("%s: region %q has the id %q, which %q of an earlier file has too; every region needs its own", path, r.Name, r.ID, other.Name)
		}
	}
	in.areas.Regions = append(in.areas.Regions, set.Regions...)
	in.notes = append(in.notes, set.Warnings...)
	return nil
}

func (in *inputs) readPlaces(name string) error {
	path := in.path(name)
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	if in.places, err = places.Decode(f, path); err != nil {
		return err
	}
	in.used(path)
	return nil
}

// keepOnGrid leaves out regions that lie wholly off the grid of the normals,
// such as far islands, with a note.
func (in *inputs) keepOnGrid() {
	box := in.normals.Grid().Box()
	in.areas.Regions = slices.DeleteFunc(in.areas.Regions, func(r regions.Region) bool {
		off := !r.Bounds.Overlaps(box)
		if off {
			in.notes = append(in.notes, fmt.Sprintf("region %s (%s) lies outside the normals and is left out", r.Name, r.ID))
		}
		return off
	})
}

// path returns where a file of the recipe lies.
func (in *inputs) path(name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(in.dir, name)
}

// used remembers a file that was read, by its name relative to the recipe.
func (in *inputs) used(path string) {
	if rel, err := filepath.Rel(in.dir, path); err == nil && filepath.IsLocal(rel) {
		path = filepath.ToSlash(rel)
	}
	if !slices.Contains(in.files, path) {
		in.files = append(in.files, path)
	}
}

func (in *inputs) close() {
	for _, f := range in.open {
		f.Close() // only read from: nothing is lost
	}
	in.convert.Close() // copies in a temporary folder
}

// compute works out the fields and notes cells that had to be left out.
func compute(ctx context.Context, r *recipe.Recipe, in *inputs) ([]*weeks.Field, error) {
	opts := computeOptions(r, in)
	var partial atomic.Int64
	opts.Done = func(_, cells int) { partial.Add(int64(cells)) }
	fields, err := weeks.Compute(ctx, in.normals, r.Windows, opts)
	if n := partial.Load(); n > 0 {
		in.notes = append(in.notes, fmt.Sprintf("%d cells have a temperature in some months only and are left out", n))
	}
	return fields, err
}

// computeOptions turns the recipe's soil into the model of the core.
func computeOptions(r *recipe.Recipe, in *inputs) weeks.Options {
	opts := weeks.Options{Soil: &soil.Default}
	opts.SD, opts.SE = in.sd, in.se
	if r.Normals.Measures == recipe.SoilTemp || r.Soil.None {
		opts.Soil = &soil.Air
		return opts
	}
	opts.Depth = soil.NewConduction(soil.OffsetDepth, r.Soil.Depth, soil.DefaultDiffusivity)
	return opts
}
