package inputs

import (
	"context"
	"fmt"
	"image"
	"io"
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
)

// Set is what a recipe names, opened and checked. It holds files open until
// Close.
type Set struct {
	ctx context.Context  // of the build, for the tools that convert
	Say *progress.Teller // of the build; nil tells nothing
	dir string           // of the recipe

	mostCells int                   // that a grid may have
	Terrain   *grid.Raster[float32] // elevation in m, absent over the sea; nil without
	Normals   weeks.Normals         // on the grid that is mapped
	Unit      string                // of the normals, and how it was told
	SD        weeks.Normals         // year-to-year standard deviation, nil without
	SE        weeks.Normals         // standard error of the normals, nil when not known
	Offsets   *calibration.Layer    // of soil above air, nil when the input needs none
	Trained   *calibration.Model    // what offsets come from, nil without stations
	Stations  *surface.Report       // how well stations fit, nil when normals are no stations
	Areas     regions.Set           // of all files of regions, in their order
	Places    []places.Place        // with names of one line
	Logo      *image.NRGBA          // beside titles, nil without
	Files     []File                // all that were read
	Notes     []string              // what the user should know
	Convert   convert.Converter     // holds copies of files that had to be converted
	open      []io.Closer
}

// Begin returns inputs without any file yet, of a recipe in a folder: for those
// who look at single files.
func Begin(ctx context.Context, dir string) *Set { return &Set{ctx: ctx, dir: dir} }

// Open opens everything that a recipe in a folder names at once, so that a wrong
// place list does not show only after the long work. The error is a
// problem.Report of what is wrong with each, with the notes behind. A grid may
// have no more cells than most. Whoever opens it closes it.
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
		if file.File != "" { // else the recipe's own problems say so
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
