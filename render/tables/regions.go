package tables

import (
	"bufio"
	"io"
	"strconv"
	"strings"
	"unicode/utf8"

	"weekband/grid/season"
	"weekband/regions/report"
)

// regionColumns are the columns of the region table. Days count from 1.0 =
// 1 January 0:00; dates are month and day, ISO 8601.
var regionColumns = []string{
	"window", "region_id", "region", "area_km2", "median_day", "p10_day", "p90_day", "median_week", "ahead_from",
	"ontime_from", "ontime_to", "catchup_to", "never_share", "always_share", "nodata_share", "flat_share", "expected_error_days",
}

// RegionsCSV writes the region table as CSV (RFC 4180, UTF-8), one line a
// window and region. Fields without a value are empty. A name that a
// spreadsheet would take for a formula gets an apostrophe in front.
func RegionsCSV(w io.Writer, rows []report.Row) error {
	var values [][]any
	for _, r := range rows {
		values = append(values, regionValues(r))
	}
	return writeCSV(w, regionColumns, values)
}

// writeCSV writes a header and lines of values.
func writeCSV(w io.Writer, columns []string, lines [][]any) error {
	out := bufio.NewWriter(w)
	out.WriteString(strings.Join(columns, ",") + "\r\n")
	for _, values := range lines {
		for i, v := range values {
			if i > 0 {
				out.WriteByte(',')
			}
			out.WriteString(quoted(asText(v)))
		}
		out.WriteString("\r\n")
	}
	return out.Flush() // reports the first error of the writes before it
}

// quoted returns a field of a line. It is quoted also where it holds a
// semicolon or a tab, at which some spreadsheets part the lines of any CSV.
func quoted(field string) string {
	if !strings.ContainsAny(field, ",;\t\"\r\n") && strings.TrimSpace(field) == field {
		return field
	}
	return `"` + strings.ReplaceAll(field, `"`, `""`) + `"`
}

// regionValues returns one row's values: string, int, float64 rounded to what
// the column shows, or nil.
func regionValues(r report.Row) []any {
	values := []any{r.Window.ID, r.ID, r.Name, Round(r.Shares.AreaKm2, 1)}
	if r.Dated {
		c := r.Calendar
		values = append(values,
			dayOfYear(r.Median, 1), dayOfYear(r.P10, 1), dayOfYear(r.P90, 1),
			int(r.Median.Week()), c.AheadFrom.ISO(), c.OntimeFrom.ISO(), c.OntimeTo.ISO(), c.CatchupTo.ISO())
	} else {
		values = append(values, nil, nil, nil, nil, nil, nil, nil, nil)
	}
	s := &r.Shares
	for _, share := range []float64{s.NeverShare, s.AlwaysShare, s.NoDataShare, s.FlatShare} {
		values = append(values, Round(share, 4))
	}
	if r.Error > 0 {
		return append(values, Round(r.Error, 1))
	}
	return append(values, nil)
}

// Round returns v to a number of decimals, halves away from zero, through
// its decimal text so that every machine writes the same.
func Round(v float64, decimals int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', decimals, 64), 64)
	if err != nil || r == 0 {
		return 0 // no "-0"
	}
	return r
}

func asText(v any) string {
	switch v := v.(type) {
	case string:
		return guarded(v)
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64)
	case int:
		return strconv.Itoa(v)
	}
	return ""
}

// formulaStarts are the characters at the start of a field that spreadsheets
// take for a formula, or leave out before they look for one: those of OWASP
// ASVS 5.0, 1.2.10, carriage return and line feed (OWASP, CSV Injection), and
// the wide forms that some take for the same.
const formulaStarts = "=+-@\t\r\n\x00＝＋－＠"

// guarded keeps text from being run as a formula by a spreadsheet that opens
// the CSV: by an apostrophe in front, as ASVS and CWE-1236 say. A program that
// reads the table takes away an apostrophe before one of these characters.
func guarded(s string) string {
	first, _ := utf8.DecodeRuneInString(s)
	if s != "" && strings.ContainsRune(formulaStarts, first) {
		return "'" + s
	}
	return s
}

// dayOfYear returns a moment rounded to a number of decimals, in [1, 366).
func dayOfYear(d season.Day, decimals int) float64 {
	return Round(float64(season.Day(Round(float64(d), decimals)).In()), decimals)
}
