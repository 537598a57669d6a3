package inputs

import (
	"context"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"slices"

	"weekband/cmd/weekband/internal/convert"
	"weekband/cmd/weekband/internal/progress"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/calibration"
	"weekband/grid/problem"
	"weekband/grid/surface"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/places"
	"weekband/regions/polygons"
)

// Set is what a recipe names, opened and checked.
type Set struct {
	ctx context.Context  // of the build, for the tools that convert
	Say *progress.Teller // of the build; nil in tests
	dir string           // of the recipe

	mostCells int // that a grid may have
	Terrain   *grid.Raster[float32]
	Normals   weeks.Normals
	Unit      string             // of the normals, and how it was told
	SD        weeks.Normals      // year-to-year standard deviation, nil without
	SE        weeks.Normals      // standard error of the normals, nil when not known
	Offsets   *calibration.Layer // of soil above air, nil when the input needs none
	Trained   *calibration.Model // what offsets come from, nil without stations
	Areas     regions.Set
	Places    []places.Place
	Logo      *image.NRGBA // beside titles, nil without
	Files     []File       // all that were read
	Notes     []string     // what the user should know
	open      []io.Closer
	Convert   convert.Converter

	Stations *surface.Report // how well stations fit, nil when normals are no stations
}

// Begin returns inputs without any file yet, of a recipe in a folder.
func Begin(ctx context.Context, dir string) *Set { return &Set{ctx: ctx, dir: dir} }

// Open opens everything at once, so that a wrong place list does not
// show only after the long work. The error is a problem.Report of what is
// wrong with each, with the notes behind. A grid may have no more cells than
// most.
func Open(ctx context.Context, r *recipe.Recipe, dir string, most int) (*Set, error) {
	in := &Set{ctx: ctx, dir: dir, mostCells: most, Notes: slices.Clone(r.Notes)}
	wrong := in.openLists(r)
	if in.Terrain != nil || r.Terrain == "" { // a terrain that is not there spoils the normals too
		wrong.Add("normals", in.named("normals", in.readNormals(r)))
	}
	wrong.Add("calibration", in.named("calibration", in.readCalibration(r)))
	if err := wrong.Err(); err != nil {
		wrong.Note(in.Notes...)
		in.Close()
		return nil, err
	}
	return in, nil
}

// openLists opens what does not depend on other keys of the recipe.
func (in *Set) openLists(r *recipe.Recipe) *problem.Report {
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

func (in *Set) readRegions(file recipe.Regions) error {
	path := in.path(file.File)
	opened, err := in.AsJSON(path, file.Object)
	if err != nil {
		return err
	}
	f, err := os.Open(opened)
	if err != nil {
		return err
	}
	defer f.Close()
	set, err := polygons.Decode(f, path, polygons.Options{Object: file.Object, ID: file.ID, Name: file.Name, Within: file.Within})
	if err != nil {
		return err
	}
	for _, r := range set.Regions {
		if other, twice := in.Areas.ByID(r.ID); twice {
			return fmt.Errorf("%s: region %q has the id %q, which %q of an earlier file has too; every region needs its own", path, r.Name, r.ID, other.Name)
		}
	}
	in.Areas.Regions = append(in.Areas.Regions, set.Regions...)
	in.Notes = append(in.Notes, set.Warnings...)
	return nil
}

// AsJSON returns a file of polygons, or its converted copy when it is neither
// GeoJSON nor TopoJSON.
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

func (in *Set) readPlaces(name string) error {
	path := in.path(name)
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	var notes []string
	if in.Places, notes, err = places.Decode(f, path); err != nil {
		return err
	}
	in.Notes = append(in.Notes, notes...)
	if len(in.Places) == 0 {
		in.Notes = append(in.Notes, path+": no place below the first line")
	}
	in.tidyPlaces(path)
	in.used("places", path)
	return nil
}

// path returns where a file of the recipe lies.
func (in *Set) path(name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(in.dir, name)
}

// Paths returns where the files that were read lie.
func (in *Set) Paths() (list []string) {
	for _, f := range in.Files {
		list = append(list, in.path(f.Name))
	}
	return list
}

// used remembers a file that was read and what for, by its name relative to
// the recipe.
func (in *Set) used(role, path string) {
	if rel, err := filepath.Rel(in.dir, path); err == nil && filepath.IsLocal(rel) {
		path = filepath.ToSlash(rel)
	}
	f := File{Role: role, Name: path}
	if !slices.Contains(in.Files, f) {
		in.Files = append(in.Files, f)
	}
}

// Hash fills in the sums of all files that were read and puts the recipe
// before them.
func (in *Set) Hash(recipePath string) error {
	in.Files = slices.Insert(in.Files, 0, File{Role: "recipe", Name: filepath.Base(recipePath)})
	for i := range in.Files {
		if err := in.Files[i].hash(in.path(in.Files[i].Name)); err != nil {
			return err
		}
	}
	return nil
}

// CloseLater closes something with the inputs.
func (in *Set) CloseLater(c io.Closer) { in.open = append(in.open, c) }

// Note remembers something that the user should know.
func (in *Set) Note(format string, args ...any) {
	in.Notes = append(in.Notes, fmt.Sprintf(format, args...))
}

// Close closes all files and removes converted copies.
func (in *Set) Close() {
	for _, f := range in.open {
		f.Close() // only read from: nothing is lost
	}
	in.Convert.Close() // copies in a temporary folder
}
