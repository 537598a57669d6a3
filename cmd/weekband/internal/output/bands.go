package output

import (
	"io"

	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/crossing"
	"weekband/regions/polygons"
)

// writeBands writes a window's bands and its ground without a day.
func writeBands(w io.Writer, win tracing.Window) error {
	out := polygons.NewEncoder(w)
	for _, b := range win.Bands.Bands {
		var feature polygons.Feature
		if b.Class != 0 {
			feature.Properties = []polygons.Property{{Key: "reason", Value: crossing.Reason(b.Class).String()}}
		} else {
			band := win.Weeks[b.Index]
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
