package main

import (
	"os"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/calibration"
)

// readCalibration opens what the recipe says of how much warmer than air soil
// is. Input that is soil, and air mapped as it is, need nothing of it.
func (in *inputs) readCalibration(r *recipe.Recipe) error {
	if r.Normals.Measures == recipe.SoilTemp || r.Soil.None || in.normals == nil {
		return nil
	}
	g := in.normals.Grid()
	switch r.Soil.Calibration {
	case recipe.Uncalibrated:
		in.offsets = calibration.Default(g)
		return nil
	case recipe.US:
		in.trained = calibration.US()
	default:
		var err error
		if in.trained, err = in.openTable(r.Soil.Calibration); err != nil {
			return err
		}
	}
	in.offsets = in.trained.Over(g)
	return nil
}

// openTable reads a table of offsets.
func (in *inputs) openTable(name string) (*calibration.Model, error) {
	path := in.path(name)
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	in.used("calibration", path)
	stations, notes, err := calibration.Decode(f, path)
	if err != nil {
		return nil, err
	}
	in.notes = append(in.notes, notes...)
	return calibration.New(name, stations)
}
