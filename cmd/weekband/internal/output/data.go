package output

import (
	"io"
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/crossing"
	"weekband/regions/polygons"
)

// WriteData writes the grid and its error where it is known, unless they were
// written before, the bands, the regions and the report of the stations.
func WriteData(root *os.Root, in *inputs.Set, drawn []tracing.Window, grids bool) error {
	areas := in.Areas
	for _, d := range drawn {
		id := d.Field.Window.ID
		if grids {
			if err := writeGrids(root, d.Field); err != nil {
				return err
			}
		}
		if err := publish.Create(root, BandsFile(id), func(w io.Writer) error { return writeBands(w, d) }); err != nil {
			return err
		}
	}
	if in.Stations != nil {
		if err := publish.Create(root, inputs.StationsFile, func(w io.Writer) error { _, err := io.WriteString(w, in.Stations.String()); return err }); err != nil {
			return err
		}
	}
	if len(areas.Regions) == 0 {
		return nil
	}
	return publish.Create(root, RegionsFile, func(w io.Writer) error {
		out := polygons.NewEncoder(w)
		titles := areas.Titles()
		for i, r := range areas.Regions {
			properties := []polygons.Property{{Key: "id", Value: r.ID}, {Key: "name", Value: r.Name}, {Key: "title", Value: titles[i]}}
			if err := out.Write(polygons.Feature{ID: r.ID, Properties: properties, Shape: r.Shape}); err != nil {
				return err
			}
		}
		return out.Close()
	})
}

// writeBands writes a window's bands and its ground without a day.
func writeBands(w io.Writer, d tracing.Window) error {
	out := polygons.NewEncoder(w)
	for _, b := range d.Bands.Bands {
		var feature polygons.Feature
		if b.Class != 0 {
			feature.Properties = []polygons.Property{{Key: "reason", Value: crossing.Reason(b.Class).String()}}
		} else {
			band := d.Weeks[b.Index]
			feature.Properties = []polygons.Property{
				{Key: "reason", Value: crossing.Dated.String()}, {Key: "label", Value: band.Label()},
				{Key: "from", Value: band.From.ISO()}, {Key: "to", Value: band.To.ISO()},
				{Key: "open_begin", Value: band.OpenBegin}, {Key: "open_end", Value: band.OpenEnd},
			}
		}
		feature.Shape = b.Shape
		if err := out.Write(feature); err != nil {
			return err
		}
	}
	return out.Close()
}
