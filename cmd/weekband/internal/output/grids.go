package output

import (
	"io"
	"math"
	"os"

	"weekband/cmd/weekband/internal/publish"
	"weekband/grid"
	"weekband/grid/source/geotiff"
	"weekband/grid/weeks"
)

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
