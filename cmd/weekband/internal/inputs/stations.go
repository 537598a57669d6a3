package inputs

import (
	"errors"
	"fmt"
	"os"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/regrid"
	"weekband/grid/surface"
)

// StationsFile is where an edition holds how well its stations agree.
const StationsFile = "data/stations.txt"

// fewestSD is how many stations must have a standard deviation for it to be
// made into a surface.
const fewestSD = 30

// coarser is how many times larger the cells are on which standard errors of
// the normals are worked out: they are smooth, and cost more than the normals.
const coarser = 8

// readStations makes normals of stations, on the wanted grid or that of the
// terrain.
func (in *Set) readStations(r *recipe.Recipe) error {
	stations, err := in.decodeStations(r.Normals)
	if err != nil {
		return err
	}
	in.Notes = append(in.Notes, stations.Notes...)
	g, land, err := in.ground(r.Grid)
	if err != nil {
		return err
	}
	model, report, err := surface.Fit(stations, land, surface.Options{})
	if err != nil {
		return fmt.Errorf("%s: %w", in.path(r.Normals.Sites), err)
	}
	in.Stations = report
	left := 0
	for _, s := range report.Suspects {
		if s.LeftOut {
			left++
		}
	}
	in.Notes = append(in.Notes, fmt.Sprintf("normals from %d stations, each predicted from the others to %.2f K on average; %d look wrong, %d of these are left out, see %s",
		report.Used, report.All.MAE, len(report.Suspects), left, StationsFile))
	over := model.Over(in.elevations(g))
	in.Normals, in.Unit = over, "C: tables of stations are in °C"

	coarse, err := grid.Sized(g.Box(), coarser*g.StepLon(), coarser*g.StepLat())
	if err != nil {
		return err
	}
	if in.SE, err = regrid.Onto(model.Over(in.elevations(coarse)).Uncertainty(), g, nil); err != nil {
		return err
	}
	return in.deviations(stations, g, land)
}

// decodeStations reads the two tables.
func (in *Set) decodeStations(n recipe.Normals) (*surface.Stations, error) {
	var texts [2]surface.Text
	for i, name := range []string{n.Sites, n.Values} {
		path := in.path(name)
		f, err := os.Open(path)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		texts[i] = surface.Text{Reader: f, Name: path}
		in.used("normals", path)
	}
	return surface.Decode(texts[0], texts[1])
}

// ground returns the grid to make normals on, and what the terrain tells of
// the land, nil without a terrain.
func (in *Set) ground(want recipe.Grid) (grid.Grid, *surface.Land, error) {
	if in.Terrain == nil {
		if want.Box == nil || want.Cell.Metres == 0 && want.Cell.Degrees == 0 {
			return grid.Grid{}, nil, errors.New("stations lie on no grid of their own: give a terrain, or a grid with cell and box, in the recipe")
		}
		g, err := in.gridFor(want, grid.Grid{})
		return g, nil, err
	}
	land, err := surface.Survey(surface.Raster(in.Terrain))
	if err != nil {
		return grid.Grid{}, nil, err
	}
	g, err := in.gridFor(want, in.Terrain.Grid())
	return g, land, err
}

// elevations returns the terrain on a grid, or level ground without one.
func (in *Set) elevations(g grid.Grid) surface.Elevations {
	switch {
	case in.Terrain == nil:
		return surface.Level(g)
	case in.Terrain.Grid().Matches(g):
		return surface.Raster(in.Terrain)
	}
	return surface.Raster(regrid.Raster(in.Terrain, g))
}

// deviations makes the year-to-year standard deviations of stations that have
// them, when they are enough, into a surface too.
func (in *Set) deviations(stations *surface.Stations, g grid.Grid, land *surface.Land) error {
	n := 0
	for _, s := range stations.List {
		if s.HasSD {
			n++
		}
	}
	if n < fewestSD {
		return nil
	}
	model, report, err := surface.Fit(stations, land, surface.Options{Quantity: surface.Deviations})
	if err != nil {
		return err
	}
	in.SD = model.Over(in.elevations(g))
	in.Notes = append(in.Notes, fmt.Sprintf("year-to-year standard deviations from %d stations, each predicted from the others to %.2f K on average", report.Used, report.All.MAE))
	return nil
}
