package inputs

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/convert"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/regrid"
	"weekband/grid/soil"
	"weekband/grid/source"
	"weekband/grid/weeks"
)

// readNormals opens the normals and their deviations and brings them to the
// wanted grid.
func (in *Set) readNormals(r *recipe.Recipe) error {
	if r.Normals.Sites != "" {
		return in.readStations(r)
	}
	files, err := in.openFiles(r.Normals.Files, r.Normals, false)
	if err != nil {
		return err
	}
	scale, why := files.Scale()
	in.Normals, in.Unit = files, fmt.Sprintf("%v: %s", scale, why)
	if len(r.Normals.SD) > 0 {
		sd, err := in.openFiles(r.Normals.SD, r.Normals, true)
		if err != nil {
			return fmt.Errorf("standard deviations: %w", err)
		}
		in.SD = sd
	}
	return in.regrid(r.Grid)
}

// openFiles opens the files that match the patterns.
func (in *Set) openFiles(patterns []string, n recipe.Normals, deviation bool) (*source.Normals, error) {
	role := "normals"
	if deviation {
		role = "sd"
	}
	paths, err := in.matching(patterns)
	if err != nil {
		return nil, err
	}
	unit := "auto"
	if n.Unit != 0 {
		unit = n.Unit.String()
	}
	for _, p := range paths {
		in.used(role, p)
	}
	opts := source.NormalsOptions{Variable: n.Variable, Unit: unit, Deviation: deviation}
	normals, err := source.OpenNormals(paths, opts)
	if convert.Wanted(err) {
		var notes []string
		if paths, notes, err = in.Readable(role, paths, n.Variable); err != nil {
			return nil, err
		}
		if normals, err = source.OpenNormals(paths, opts); err != nil {
			return nil, fmt.Errorf("%w\n    %s", err, strings.Join(notes, "\n    "))
		}
	}
	if err != nil {
		return nil, err
	}
	in.open = append(in.open, normals)
	for _, note := range normals.Notes() {
		in.Notes = append(in.Notes, in.Convert.Original(note))
	}
	return normals, nil
}

// matching returns the files that match patterns, or all patterns that match
// none.
func (in *Set) matching(patterns []string) (paths []string, err error) {
	var wrong []error
	for _, pattern := range patterns {
		found, err := filepath.Glob(in.path(pattern))
		if err != nil {
			wrong = append(wrong, fmt.Errorf("pattern %q: %w; want * and ? only, and [ in pairs", pattern, err))
		} else if len(found) == 0 {
			wrong = append(wrong, fmt.Errorf("no file matches %s; names are relative to the folder of the recipe", in.path(pattern)))
		}
		paths = append(paths, found...)
	}
	return paths, errors.Join(wrong...)
}

// Readable returns paths with a converted copy in place of every file that
// cannot be read as it is, and notes what was converted.
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

// regrid brings the normals and their deviations to the wanted grid.
func (in *Set) regrid(want recipe.Grid) error {
	onto, err := in.gridFor(want, in.Normals.Grid())
	if err != nil || onto.Matches(in.Normals.Grid()) {
		return err
	}
	fine, err := regrid.Onto(in.Normals, onto, in.Terrain)
	if err != nil {
		return err
	}
	in.Normals = fine
	if in.SD == nil {
		return nil
	}
	sd, err := regrid.Onto(in.SD, onto, nil) // a spread does not change with height as a mean does
	if err != nil {
		return err
	}
	in.SD = sd
	return nil
}

// gridFor returns the wanted grid, taking from own what the recipe leaves
// out.
func (in *Set) gridFor(want recipe.Grid, own grid.Grid) (grid.Grid, error) {
	g, err := sized(want, own)
	if err == nil && g.Rows() > in.mostCells/g.Cols() {
		err = fmt.Errorf("%d rows × %d columns are more than %d million cells, for which the lookups of an edition take more files than a site should have; write larger cells or a smaller box in the recipe, such as grid: {cell: 4 km}, or build --stream for the crossing grids and the table of regions alone",
			g.Rows(), g.Cols(), in.mostCells/1_000_000)
	}
	return g, err
}

// MostCells is how many cells a whole edition takes on: one file of the lookups
// for every 4,096. The contiguous United States have 22 million at 800 m.
const MostCells = 200_000_000

// sized is gridFor without a limit.
func sized(want recipe.Grid, own grid.Grid) (grid.Grid, error) {
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

// ComputeOptions turns the recipe's soil into the model of the core.
func ComputeOptions(r *recipe.Recipe, in *Set) weeks.Options {
	opts := weeks.Options{Soil: &soil.Default}
	opts.SD, opts.SE, opts.Offsets = in.SD, in.SE, in.Offsets
	if r.Normals.Measures == recipe.SoilTemp || r.Soil.None {
		opts.Soil = &soil.Air
		return opts
	}
	opts.Depth = soil.NewConduction(soil.OffsetDepth, r.Soil.Depth, soil.DefaultDiffusivity)
	return opts
}
