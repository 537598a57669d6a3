package tables

import (
	"bufio"
	"io"
	"strconv"

	"github.com/klauspost/compress/gzip"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/weeks"
)

// MaxCells is how many cells the cell table holds before a build leaves it
// out unless asked.
const MaxCells = 2_000_000

const cellHeader = "window,row,col,lat,lon,area_km2,crossing_day,early_year_day,late_year_day,reason,standard_error_days\r\n"

// CellsCSV writes the cells that have normals, window by window and row by
// row from the north-west, as gzipped CSV (RFC 1952, RFC 4180). Rows and
// columns count from 0 at the north-western corner; lat and lon are cell
// centres; days count from 1.0 = 1 January 0:00 and are empty where reason is
// flat, never or always. The error is the standard error of the crossing day,
// empty when not known.
func CellsCSV(w io.Writer, fields []*weeks.Field) error {
	zip := gzip.NewWriter(w)
	out := bufio.NewWriterSize(zip, 1<<16)
	if _, err := out.WriteString(cellHeader); err != nil {
		return err
	}
	for _, f := range fields {
		if err := writeCells(out, f); err != nil {
			return err
		}
	}
	if err := out.Flush(); err != nil {
		return err
	}
	return zip.Close()
}

func writeCells(out *bufio.Writer, f *weeks.Field) error {
	g := f.Grid()
	var line []byte
	for row := range g.Rows() {
		area := strconv.FormatFloat(g.CellArea(row), 'f', 3, 64)
		reasons, has := f.Reason.Row(row)
		for col, ok := range has {
			if !ok {
				continue
			}
			cell := grid.Cell{Row: row, Col: col}
			at := g.Center(cell)
			line = append(line[:0], f.Window.ID...)
			for _, n := range []int{row, col} {
				line = strconv.AppendInt(append(line, ','), int64(n), 10)
			}
			for _, v := range []float64{at.Lat, at.Lon} {
				line = strconv.AppendFloat(append(line, ','), Round(v, 5), 'f', -1, 64)
			}
			line = append(append(line, ','), area...)
			line = appendDays(line, f, cell)
			line = append(append(append(line, ','), reasons[col].String()...), ',')
			if e := f.ErrorAt(cell); e > 0 {
				line = strconv.AppendFloat(line, Round(e, 1), 'f', 1, 64)
			}
			line = append(line, '\r', '\n')
			if _, err := out.Write(line); err != nil {
				return err
			}
		}
	}
	return nil
}

// appendDays appends the typical, early and late day, or three empty fields.
func appendDays(line []byte, f *weeks.Field, cell grid.Cell) []byte {
	typical, ok := f.Day.At(cell)
	if !ok {
		return append(line, ",,,"...)
	}
	early, late, _ := f.Years(cell)
	for _, d := range []season.Day{season.Day(typical), early, late} {
		line = strconv.AppendFloat(append(line, ','), dayOfYear(d, 2), 'f', 2, 64)
	}
	return line
}
