package inputs

import (
	"fmt"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/regrid"
)

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
