package inputs

import (
	"os"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/calibration"
)

// readCalibration opens what the recipe says of how much warmer than air soil
// is. Input that is soil, and air mapped as it is, need nothing of it.
func (in *Set) readCalibration(r *recipe.Recipe) error {
	if r.Normals.Measures == recipe.SoilTemp || r.Soil.None || in.Normals == nil {
		return nil
	}
	g := in.Normals.Grid()
	switch r.Soil.Calibration {
	case recipe.Uncalibrated:
		in.Offsets = calibration.Default(g)
		return nil
	case recipe.US:
		in.Trained = calibration.US()
	default:
		var err error
		if in.Trained, err = in.openTable(r.Soil.Calibration); err != nil {
			return err
		}
	}
	in.Offsets = in.Trained.Over(g)
	return nil
}

// openTable reads a table of offsets.
func (in *Set) openTable(name string) (*calibration.Model, error) {
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
	in.Notes = append(in.Notes, notes...)
	return calibration.New(name, stations)
}
