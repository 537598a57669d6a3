package main

import (
	"context"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"

	"weekband/cmd/weekband/internal/convert"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/problem"
	"weekband/grid/surface"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/places"
)

// inputs is what a recipe names, opened and checked.
type inputs struct {
	ctx context.Context // of the build, for the tools that convert
	say *progress       // of the build; nil in tests
	dir string          // of the recipe

	mostCells int // that a grid may have
	terrain   *grid.Raster[float32]
	normals   weeks.Normals
	unit      string             // of the normals, and how it was told
	sd        weeks.Normals      // year-to-year standard deviation, nil without
	se        weeks.Normals      // standard error of the normals, nil when not known
	offsets   *calibration.Layer // of soil above air, nil when the input needs none
	trained   *calibration.Model // what offsets come from, nil without stations
	areas     regions.Set
	places    []places.Place
	logo      *image.NRGBA // beside titles, nil without
	files     []inputFile  // all that were read
	notes     []string     // what the user should know
	open      []io.Closer
	convert   convert.Converter

	stations *surface.Report // how well stations fit, nil when normals are no stations
}

// newInputs returns inputs without any file yet, of a recipe in a folder.
func newInputs(ctx context.Context, dir string) *inputs { return &inputs{ctx: ctx, dir: dir} }

// openInputs opens everything at once, so that a wrong place list does not
// show only after the long work. The error is a problem.Report of what is
// wrong with each, with the notes behind. A grid may have no more cells than
// most.
func openInputs(ctx context.Context, r *recipe.Recipe, dir string, most int) (*inputs, error) {
	in := &inputs{ctx: ctx, dir: dir, mostCells: most, notes: slices.Clone(r.Notes)}
	wrong := in.openLists(r)
	if in.terrain != nil || r.Terrain == "" { // a terrain that is not there spoils the normals too
		wrong.Add("normals", in.named("normals", in.readNormals(r)))
	}
	wrong.Add("calibration", in.named("calibration", in.readCalibration(r)))
	if err := wrong.Err(); err != nil {
		wrong.Note(in.notes...)
		in.close()
		return nil, err
	}
	return in, nil
}

// openLists opens what does not depend on other keys of the recipe.
func (in *inputs) openLists(r *recipe.Recipe) *problem.Report {
	wrong := new(problem.Report)
	try := func(what string, err error) { wrong.Add(what, in.named(what, err)) }
	if r.Terrain != "" {
		try("terrain", in.readTerrain(r.Terrain))
	}
	for _, file := range r.Regions {
		if file.File != "" { // is missing, which the recipe's problems say
			try("regions", in.readRegions(file))
		}
	}
	if r.Places != "" {
		try("places", in.readPlaces(r.Places))
	}
	if r.Logo != "" {
		try("logo", in.readLogo(r.Logo))
	}
	return wrong
}

func (in *inputs) readRegions(file recipe.Regions) error {
	path := in.path(file.File)
	opened, err := in.asJSON(path, file.Object)
	if err != nil {
		return err
	}
	f, err := os.Open(opened)
	if err != nil {
		return err
	}
	defer f.Close()
	set, err := regions.Decode(f, path, regions.Options{Object: file.Object, ID: file.ID, Name: file.Name, Within: file.Within})
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

// asJSON returns a file of polygons, or its converted copy when it is neither
// GeoJSON nor TopoJSON.
func (in *inputs) asJSON(path, layer string) (string, error) {
	in.used("regions", path)
	foreign, err := convert.Polygons(path)
	if err != nil || !foreign {
		return path, err
	}
	for _, part := range convert.Beside(path) {
		in.used("regions", part)
	}
	copied, how, err := in.convert.Vector(in.ctx, path, layer)
	if err == nil {
		in.notes = append(in.notes, converted([]string{path}, how))
	}
	return copied, err
}

func (in *inputs) readPlaces(name string) error {
	path := in.path(name)
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	var notes []string
	if in.places, notes, err = places.Decode(f, path); err != nil {
		return err
	}
	in.notes = append(in.notes, notes...)
	if len(in.places) == 0 {
		in.notes = append(in.notes, path+": no place below the first line")
	}
	in.tidyPlaces(path)
	in.used("places", path)
	return nil
}

// path returns where a file of the recipe lies.
func (in *inputs) path(name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(in.dir, name)
}

// paths returns where the files that were read lie.
func (in *inputs) paths() (list []string) {
	for _, f := range in.files {
		list = append(list, in.path(f.Name))
	}
	return list
}

// used remembers a file that was read and what for, by its name relative to
// the recipe.
func (in *inputs) used(role, path string) {
	if rel, err := filepath.Rel(in.dir, path); err == nil && filepath.IsLocal(rel) {
		path = filepath.ToSlash(rel)
	}
	f := inputFile{Role: role, Name: path}
	if !slices.Contains(in.files, f) {
		in.files = append(in.files, f)
	}
}

// hash fills in the sums of all files that were read and puts the recipe
// before them.
func (in *inputs) hash(recipePath string) error {
	in.files = slices.Insert(in.files, 0, inputFile{Role: "recipe", Name: filepath.Base(recipePath)})
	for i := range in.files {
		if err := in.files[i].hash(in.path(in.files[i].Name)); err != nil {
			return err
		}
	}
	return nil
}

// closeLater closes something with the inputs.
func (in *inputs) closeLater(c io.Closer) { in.open = append(in.open, c) }

// note remembers something that the user should know.
func (in *inputs) note(format string, args ...any) {
	in.notes = append(in.notes, fmt.Sprintf(format, args...))
}

// close closes all files and removes converted copies.
func (in *inputs) close() {
	for _, f := range in.open {
		f.Close() // only read from: nothing is lost
	}
	in.convert.Close() // copies in a temporary folder
}
