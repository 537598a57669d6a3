package inputs

import (
	"fmt"

	"weekband/cmd/weekband/internal/convert"
	"weekband/grid"
	"weekband/grid/source"
)

// Bounds of elevations on land in m, a little wider than the shore of the
// Dead Sea and the top of Everest.
const (
	lowest  = -500
	highest = 9000
)

// mostElevations is how many cells a terrain may have; it is held in memory, at
// 5 bytes a cell. The world has 933 million at 30 arc-seconds.
const mostElevations = 1_000_000_000

// readTerrain reads elevations.
func (in *Set) readTerrain(name string) error {
	path := in.path(name)
	in.used("terrain", path)
	l, err := source.Open(path, source.Options{})
	if convert.Wanted(err) {
		var copies []string
		if copies, _, err = in.Readable("terrain", []string{path}, ""); err != nil {
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
	if g := l.Grid(); g.Rows() > mostElevations/g.Cols() {
		return fmt.Errorf("%s: %d rows × %d columns are more than %d million elevations, which take %d GB of memory; cut it to the land that is mapped, or make its cells larger",
			path, g.Rows(), g.Cols(), mostElevations/1_000_000, 5*mostElevations>>30)
	}
	terrain, err := ReadRaster(l, path, func(v float32) error {
		if v < lowest || v > highest {
			return fmt.Errorf("elevation %g m is outside %d to %d m; is it metres, and does the file say which number stands for the sea?", v, lowest, highest)
		}
		return nil
	})
	if err == nil {
		in.Terrain = terrain
	}
	return err
}

// ReadRaster reads the first layer of a file; check refuses values. path stands
// in messages.
func ReadRaster(l source.Layers, path string, check func(v float32) error) (*grid.Raster[float32], error) {
	out := grid.NewRaster[float32](l.Grid())
	for row := range l.Grid().Rows() {
		vals, has := out.Row(row)
		if err := l.Read(0, row, 1, vals, has); err != nil {
			return nil, err
		}
		for col, ok := range has {
			if !ok {
				continue
			}
			if err := check(vals[col]); err != nil {
				return nil, fmt.Errorf("%s: row %d, column %d: %w", path, row, col, err)
			}
		}
	}
	return out, nil
}
