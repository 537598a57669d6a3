package output

import (
	"io"
	"math"
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/source/geotiff"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/lookup"
	"weekband/render/tables"
)

// Names of files within an edition.
const (
	RegionsFile = "data/regions.geojson"
	TableCSV    = "tables/regions.csv"
	TableXLSX   = "tables/regions.xlsx"
	WorthFile   = "tables/worth.csv"
	CellsFile   = "tables/cells.csv.gz"
)

func GridFile(window string) string  { return "data/" + window + ".tif" }
func ErrorFile(window string) string { return "data/" + window + "-error.tif" }
func BandsFile(window string) string { return "data/bands-" + window + ".geojson" }

// WriteTables writes the region tables and, of fields that hold all cells, the
// table of cells, unless it is too large and all cells are not asked for; cells
// reports whether it did. Without fields there is no table of cells.
func WriteTables(root *os.Root, rows []report.Row, fields []*weeks.Field, allCells bool) (cells bool, err error) {
	if err := WriteRegionTables(root, rows); err != nil {
		return false, err
	}
	if err := publish.Create(root, WorthFile, func(w io.Writer) error { return tables.WorthCSV(w, rows) }); err != nil {
		return false, err
	}
	count := 0
	for _, f := range fields {
		count += f.Reason.Count()
	}
	if count == 0 || count > tables.MaxCells && !allCells {
		return false, nil
	}
	return true, publish.Create(root, CellsFile, func(w io.Writer) error { return tables.CellsCSV(w, fields) })
}

// WriteRegionTables writes the region tables.
func WriteRegionTables(root *os.Root, rows []report.Row) error {
	if err := publish.Create(root, TableCSV, func(w io.Writer) error { return tables.RegionsCSV(w, rows) }); err != nil {
		return err
	}
	return publish.Create(root, TableXLSX, func(w io.Writer) error { return tables.RegionsSheet(w, rows) })
}

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
		out := regions.NewEncoder(w)
		titles := areas.Titles()
		for i, r := range areas.Regions {
			properties := []regions.Property{{Key: "id", Value: r.ID}, {Key: "name", Value: r.Name}, {Key: "title", Value: titles[i]}}
			if err := out.Write(regions.Feature{ID: r.ID, Properties: properties, Shape: r.Shape}); err != nil {
				return err
			}
		}
		return out.Close()
	})
}

// writeGrids writes the crossing grid of a field, and that of its error where it
// is known.
func writeGrids(root *os.Root, f *weeks.Field) error {
	err := publish.Create(root, GridFile(f.Window.ID), func(w io.Writer) error { return WriteDays(w, f) })
	if err == nil && f.Error != nil {
		err = publish.Create(root, ErrorFile(f.Window.ID), func(w io.Writer) error { return writeErrors(w, f) })
	}
	return err
}

// DayOptions are those of a GeoTIFF of crossing days.
var DayOptions = geotiff.WriteOptions{
	Names: []string{"crossing_day"}, Unit: "day", Description: "typical crossing day, 1.0 = 1 January 0:00",
}

// WriteDays writes the crossing day, in [1, 366), as GeoTIFF.
func WriteDays(w io.Writer, f *weeks.Field) error {
	return WriteGrid(w, f.Day, weeks.DayOfYear, DayOptions)
}

// ErrorOptions are those of a GeoTIFF of standard errors.
var ErrorOptions = geotiff.WriteOptions{
	Names: []string{"standard_error"}, Unit: "day",
	Description: "standard error of the crossing day that comes from placing stations on the grid",
}

// writeErrors writes the standard error of the crossing day as GeoTIFF.
func writeErrors(w io.Writer, f *weeks.Field) error {
	return WriteGrid(w, f.Error, RoundedError, ErrorOptions)
}

// RoundedError rounds an error to 1/1024 of a day: it comes from differences of
// sums, whose last digits hang on the machine.
func RoundedError(days float32) float32 { return float32(math.Round(float64(days)*1024) / 1024) }

// WriteGrid writes a raster as GeoTIFF, each value through a function.
func WriteGrid(w io.Writer, r *grid.Raster[float32], value func(float32) float32, opts geotiff.WriteOptions) error {
	rows := func(_, first, n int, vals []float32, has []bool) error {
		cols := r.Grid().Cols()
		for row := range n {
			from, present := r.Row(first + row)
			copy(has[row*cols:], present)
			for col, ok := range present {
				if ok {
					vals[row*cols+col] = value(from[col])
				}
			}
		}
		return nil
	}
	return geotiff.Encode(w, r.Grid(), 1, rows, opts)
}

// writeBands writes a window's bands and its ground without a day.
func writeBands(w io.Writer, d tracing.Window) error {
	out := regions.NewEncoder(w)
	for _, b := range d.Bands.Bands {
		var feature regions.Feature
		if b.Class != 0 {
			feature.Properties = []regions.Property{{Key: "reason", Value: crossing.Reason(b.Class).String()}}
		} else {
			band := d.Weeks[b.Index]
			feature.Properties = []regions.Property{
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

// WriteLookup writes what lookups need.
func WriteLookup(root *os.Root, r *recipe.Recipe, in *inputs.Set, fields []*weeks.Field, covers []zonal.Coverage) error {
	data := lookup.Data{Fields: fields, Covers: covers, Places: in.Places, Regions: LookupRegions(in)}
	return lookup.Write(root, LookupIndex(r, in), data)
}

// LookupIndex returns what lookups tell of an edition.
func LookupIndex(r *recipe.Recipe, in *inputs.Set) lookup.Index {
	x := lookup.Index{
		Language: r.Language.Tag, Dates: r.Language.Order,
		Title: r.Title, Edition: r.Edition, Period: r.Normals.Period, Credits: r.Credits,
		Measures: phrase.Measures(r), Sure: phrase.Sure(r, in), Cautions: r.Language.Sentences.Cautions,
	}
	if r.Normals.Measures == recipe.SoilTemp && r.Soil.Stated || r.Normals.Measures == recipe.Air && !r.Soil.None {
		x.Depth = float64(r.Soil.Depth)
	}
	return x
}

// LookupRegions returns the regions as lookups know them.
func LookupRegions(in *inputs.Set) (list []lookup.Region) {
	pages, titles := Slugs(in.Areas), in.Areas.Titles()
	for i, area := range in.Areas.Regions {
		list = append(list, lookup.Region{Name: titles[i], ID: area.ID, Slug: pages[area.ID], Inside: area.Inside()})
	}
	return list
}
