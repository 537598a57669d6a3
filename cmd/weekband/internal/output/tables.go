package output

import (
	"io"
	"os"

	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render/tables"
)

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
