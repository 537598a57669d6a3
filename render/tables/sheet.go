package tables

import (
	"fmt"
	"io"
	"strconv"

	"github.com/xuri/excelize/v2"

	"weekband/regions/report"
)

// Names of the sheets of a spreadsheet.
const (
	regionsSheet  = "regions"
	cautionsSheet = "before you act"
)

// RegionsSheet writes the region table as an Office Open XML spreadsheet: one
// sheet named regions, its header frozen, and one with the cautions, each in a
// line of its own.
func RegionsSheet(w io.Writer, rows []report.Row, cautions []string) error {
	f := excelize.NewFile()
	defer f.Close()
	for _, fill := range []func() error{
		func() error { return fillRegions(f, rows) },
		func() error { return fillCautions(f, cautions) },
	} {
		if err := fill(); err != nil {
			return fmt.Errorf("spreadsheet: %w", err)
		}
	}
	return f.Write(w)
}

// fillRegions fills the first sheet with the table.
func fillRegions(f *excelize.File, rows []report.Row) error {
	if err := f.SetSheetName("Sheet1", regionsSheet); err != nil {
		return err
	}
	head := make([]any, len(regionColumns))
	for i, c := range regionColumns {
		head[i] = c
	}
	if err := f.SetSheetRow(regionsSheet, "A1", &head); err != nil {
		return err
	}
	for i, r := range rows {
		values := regionValues(r)
		if err := f.SetSheetRow(regionsSheet, "A"+strconv.Itoa(i+2), &values); err != nil {
			return err
		}
	}
	bold, err := f.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	if err != nil {
		return err
	}
	if err := f.SetRowStyle(regionsSheet, 1, 1, bold); err != nil {
		return err
	}
	if err := f.SetColWidth(regionsSheet, "A", "C", 18); err != nil {
		return err
	}
	return f.SetPanes(regionsSheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
}

// fillCautions adds a sheet of cautions, wide enough to read.
func fillCautions(f *excelize.File, cautions []string) error {
	if _, err := f.NewSheet(cautionsSheet); err != nil {
		return err
	}
	for i, text := range cautions {
		if err := f.SetCellStr(cautionsSheet, "A"+strconv.Itoa(i+1), text); err != nil {
			return err
		}
	}
	wrap, err := f.NewStyle(&excelize.Style{Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}})
	if err != nil {
		return err
	}
	if err := f.SetColStyle(cautionsSheet, "A", wrap); err != nil {
		return err
	}
	return f.SetColWidth(cautionsSheet, "A", "A", 90)
}
