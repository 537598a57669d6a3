package main

import (
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/convert"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/surface"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/places"
)

// inputs is what a recipe names, opened and checked.
type inputs struct {
	ctx     context.Context // of the build, for the tools that convert
	say     *progress       // of the build; nil in tests
	dir     string          // of the recipe
	terrain *grid.Raster[float32]
	normals weeks.Normals
	unit    string             // of the normals, and how it was told
	sd      weeks.Normals      // year-to-year standard deviation, nil without
	se      weeks.Normals      // standard error of the normals, nil when not known
	offsets *calibration.Layer // of soil above air, nil when the input needs none
	trained *calibration.Model // what offsets come from, nil without stations
	areas   regions.Set
	places  []places.Place
	logo    *image.NRGBA // beside titles, nil without
	files   []inputFile  // all that were read
	notes   []string     // what the user should know
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
			wrong = append(wrong, fmt.Errorf("%s: %w", what, in.convert.Restore(err)))
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
	if r.Logo != "" {
		try("logo", in.readLogo(r.Logo))
	}
	if len(wrong) == 0 || r.Terrain == "" { // a terrain that is not there spoils the normals too
		try("normals", in.readNormals(r))
	}
	try("calibration", in.readCalibration(r))
	if len(wrong) > 0 {
		in.close()
		return nil, errors.Join(wrong...)
	}
	return in, nil
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
	if in.places, err = places.Decode(f, path); err != nil {
		return err
	}
	in.used("places", path)
	return nil
}

// keepOnGrid leaves out regions that lie wholly off the grid of the normals,
// such as far islands, with a note that names the first of them.
func (in *inputs) keepOnGrid() {
	const named = 8
	box := in.normals.Grid().Box()
	var off []string
	in.areas.Regions = slices.DeleteFunc(in.areas.Regions, func(r regions.Region) bool {
		if r.Bounds.Overlaps(box) {
			return false
		}
		off = append(off, r.Name)
		return true
	})
	switch n := len(off); {
	case n == 0:
	case n <= named:
		in.notes = append(in.notes, fmt.Sprintf("outside the normals and left out: %s", strings.Join(off, ", ")))
	default:
		in.notes = append(in.notes, fmt.Sprintf("outside the normals and left out: %d regions, the first are %s", n, strings.Join(off[:named], ", ")))
	}
}

// path returns where a file of the recipe lies.
func (in *inputs) path(name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(in.dir, name)
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

func (in *inputs) close() {
	for _, f := range in.open {
		f.Close() // only read from: nothing is lost
	}
	in.convert.Close() // copies in a temporary folder
}
