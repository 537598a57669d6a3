package tables

import (
	"io"

	"weekband/regions/shifts"
)

// shiftColumns are the columns of the table of shifts. Days and weeks later are
// negative for earlier; shares are from 0 to 1.
var shiftColumns = []string{
	"window", "region_id", "region", "change", "weeks_later", "week_before", "week_after", "median_day_before", "median_day_after",
	"days_later", "p10_days_later", "p90_days_later", "common_share", "earlier_share", "same_share", "later_share", "gained_share", "lost_share",
	"ahead_from_before", "ahead_from_after", "ontime_from_before", "ontime_from_after", "ontime_to_before", "ontime_to_after",
	"catchup_to_before", "catchup_to_after", "redrawn",
}

// WindowShifts are the rows of one window.
type WindowShifts struct {
	Window string // its id, of the newer edition
	Rows   []shifts.Row
}

// ShiftsCSV writes how the weeks of regions moved as CSV (RFC 4180, UTF-8), one
// line a window and region. change is "same", "earlier" or "later" by the
// region's week, "gained" or "lost" when only one edition has a week for half of
// it, "none" when neither has, "added" or "left" when only one has the region.
// Fields without a value are empty.
func ShiftsCSV(w io.Writer, list []WindowShifts) error {
	var lines [][]any
	for _, part := range list {
		for i := range part.Rows {
			lines = append(lines, shiftValues(part.Window, &part.Rows[i]))
		}
	}
	return writeCSV(w, shiftColumns, lines)
}

func shiftValues(window string, r *shifts.Row) []any {
	values := []any{window, r.ID, r.Name, r.Change().String()}
	if r.Told() {
		values = append(values, r.Weeks())
	} else {
		values = append(values, nil)
	}
	for _, l := range []*shifts.Line{r.Before, r.After} {
		values = append(values, dated(l, func() any { return int(l.Week) }))
	}
	for _, l := range []*shifts.Line{r.Before, r.After} {
		values = append(values, dated(l, func() any { return float64(l.Median) }))
	}
	for _, days := range []float64{r.Median, r.P10, r.P90} {
		values = append(values, whenCommon(r, Round(days, 1)))
	}
	values = append(values, Round(r.Common, 4))
	for _, share := range []float64{r.Earlier, r.Same, r.Later} {
		values = append(values, whenCommon(r, Round(share, 4)))
	}
	values = append(values, Round(r.GainedShare, 4), Round(r.LostShare, 4))
	values = append(values, shiftDates(r)...)
	if r.Redrawn() {
		return append(values, "yes")
	}
	return append(values, nil)
}

// shiftDates returns the four dates, each before and after.
func shiftDates(r *shifts.Row) []any {
	var values []any
	for k := range 4 {
		for _, l := range []*shifts.Line{r.Before, r.After} {
			values = append(values, dated(l, func() any {
				c := &l.Calendar
				return []interface{ ISO() string }{c.AheadFrom, c.OntimeFrom, c.OntimeTo, c.CatchupTo}[k].ISO()
			}))
		}
	}
	return values
}

// dated returns a value of a line that has dates, else nil.
func dated(l *shifts.Line, value func() any) any {
	if l == nil || !l.Dated {
		return nil
	}
	return value()
}

func whenCommon(r *shifts.Row, v float64) any {
	if r.Common == 0 {
		return nil
	}
	return v
}
