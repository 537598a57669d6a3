package output

import (
	"io"
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/tracing"
)

// WriteData writes the bands of windows, the regions where there are any and the
// report of the stations when normals come from some; with grids also the crossing
// grid of every window, and that of its errors where they are known.
func WriteData(root *os.Root, in *inputs.Set, windows []tracing.Window, grids bool) error {
	for _, win := range windows {
		if grids {
			if err := writeGrids(root, win.Field); err != nil {
				return err
			}
		}
		if err := publish.Create(root, BandsFile(win.Field.Window.ID), func(w io.Writer) error { return writeBands(w, win) }); err != nil {
			return err
		}
	}
	if in.Stations != nil {
		if err := publish.Create(root, inputs.StationsFile, func(w io.Writer) error { _, err := io.WriteString(w, in.Stations.String()); return err }); err != nil {
			return err
		}
	}
	if len(in.Areas.Regions) == 0 {
		return nil
	}
	return publish.Create(root, RegionsFile, func(w io.Writer) error { return writeRegions(w, in.Areas) })
}
