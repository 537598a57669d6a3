package main

import (
	"io"
	"math"
	"os"

	"weekband/cmd/weekband/internal/recipe"
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
	regionsFile = "data/regions.geojson"
	tableCSV    = "tables/regions.csv"
	tableXLSX   = "tables/regions.xlsx"
	worthFile   = "tables/worth.csv"
	cellsFile   = "tables/cells.csv.gz"
)

func gridFile(window string) string  { return "data/" + window + ".tif" }
func errorFile(window string) string { return "data/" + window + "-error.tif" }
func bandsFile(window string) string { return "data/bands-" + window + ".geojson" }

// writeTables writes the region tables and, of fields that hold all cells, the
// table of cells, unless it is too large and all cells are not asked for; cells
// reports whether it did. Without fields there is no table of cells.
func writeTables(root *os.Root, rows []report.Row, fields []*weeks.Field, allCells bool) (cells bool, err error) {
	if err := writeRegionTables(root, rows); err != nil {
		return false, err
	}
	if err := create(root, worthFile, func(w io.Writer) error { return tables.WorthCSV(w, rows) }); err != nil {
		return false, err
	}
	count := 0
	for _, f := range fields {
		count += f.Reason.Count()
	}
	if count == 0 || count > tables.MaxCells && !allCells {
		return false, nil
	}
	return true, create(root, cellsFile, func(w io.Writer) error { return tables.CellsCSV(w, fields) })
}

// writeRegionTables writes the region tables.
func writeRegionTables(root *os.Root, rows []report.Row) error {
	if err := create(root, tableCSV, func(w io.Writer) error { return tables.RegionsCSV(w, rows) }); err != nil {
		return err
	}
	return create(root, tableXLSX, func(w io.Writer) error { return tables.RegionsSheet(w, rows) })
}

// writeData writes the grid and its error where it is known, unless they were
// written before, the bands, the regions and the report of the stations.
func writeData(root *os.Root, in *inputs, drawn []drawing, grids bool) error {
	areas := in.areas
	for _, d := range drawn {
		id := d.field.Window.ID
		if grids {
			if err := writeGrids(root, d.field); err != nil {
				return err
			}
		}
		if err := create(root, bandsFile(id), func(w io.Writer) error { return writeBands(w, d) }); err != nil {
			return err
		}
	}
	if in.stations != nil {
		if err := create(root, stationsFile, func(w io.Writer) error { _, err := io.WriteString(w, in.stations.String()); return err }); err != nil {
			return err
		}
	}
	if len(areas.Regions) == 0 {
		return nil
	}
	return create(root, regionsFile, func(w io.Writer) error {
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
	err := create(root, gridFile(f.Window.ID), func(w io.Writer) error { return writeDays(w, f) })
	if err == nil && f.Error != nil {
		err = create(root, errorFile(f.Window.ID), func(w io.Writer) error { return writeErrors(w, f) })
	}
	return err
}

// dayOptions are those of a GeoTIFF of crossing days.
var dayOptions = geotiff.WriteOptions{
	Names: []string{"crossing_day"}, Unit: "day", Description: "typical crossing day, 1.0 = 1 January 0:00",
}

// writeDays writes the crossing day, in [1, 366), as GeoTIFF.
func writeDays(w io.Writer, f *weeks.Field) error {
	return writeGrid(w, f.Day, weeks.DayOfYear, dayOptions)
}

// errorOptions are those of a GeoTIFF of standard errors.
var errorOptions = geotiff.WriteOptions{
	Names: []string{"standard_error"}, Unit: "day",
	Description: "standard error of the crossing day that comes from placing stations on the grid",
}

// writeErrors writes the standard error of the crossing day as GeoTIFF.
func writeErrors(w io.Writer, f *weeks.Field) error {
	return writeGrid(w, f.Error, roundedError, errorOptions)
}

// roundedError rounds an error to 1/1024 of a day: it comes from differences of
// sums, whose last digits hang on the machine.
func roundedError(days float32) float32 { return float32(math.Round(float64(days)*1024) / 1024) }

// writeGrid writes a raster as GeoTIFF, each value through a function.
func writeGrid(w io.Writer, r *grid.Raster[float32], value func(float32) float32, opts geotiff.WriteOptions) error {
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
func writeBands(w io.Writer, d drawing) error {
	out := regions.NewEncoder(w)
	for _, b := range d.bands.Bands {
		var feature regions.Feature
		if b.Class != 0 {
			feature.Properties = []regions.Property{{Key: "reason", Value: crossing.Reason(b.Class).String()}}
		} else {
			band := d.weeks[b.Index]
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

// writeLookup writes what lookups need.
func writeLookup(root *os.Root, r *recipe.Recipe, in *inputs, fields []*weeks.Field, covers []zonal.Coverage) error {
	data := lookup.Data{Fields: fields, Covers: covers, Places: in.places, Regions: lookupRegions(in)}
	return lookup.Write(root, lookupIndex(r, in), data)
}

// lookupIndex returns what lookups tell of an edition.
func lookupIndex(r *recipe.Recipe, in *inputs) lookup.Index {
	x := lookup.Index{
		Language: r.Language.Tag, Dates: r.Language.Order,
		Title: r.Title, Edition: r.Edition, Period: r.Normals.Period, Credits: r.Credits,
		Measures: measures(r), Sure: sure(r, in), Cautions: r.Language.Sentences.Cautions,
	}
	if r.Normals.Measures == recipe.SoilTemp && r.Soil.Stated || r.Normals.Measures == recipe.Air && !r.Soil.None {
		x.Depth = float64(r.Soil.Depth)
	}
	return x
}

// lookupRegions returns the regions as lookups know them.
func lookupRegions(in *inputs) (list []lookup.Region) {
	pages, titles := slugs(in.areas), in.areas.Titles()
	for i, area := range in.areas.Regions {
		list = append(list, lookup.Region{Name: titles[i], ID: area.ID, Slug: pages[area.ID], Inside: area.Inside()})
	}
	return list
}
