package tables

import (
	"strings"
	"time"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/table"
	"weekband/regions/shifts"
)

// ReadRegions reads a table of regions that RegionsCSV wrote, now or earlier:
// columns are found by name, and those that earlier editions lack may be
// missing. The error names file and line of every row that is damaged.
func ReadRegions(in table.Text) ([]shifts.Line, error) {
	var wrong table.Mistakes
	t, err := table.Open(in, table.Form{Need: regionColumns[:12]}, &wrong)
	if err != nil {
		return nil, err
	}
	var lines []shifts.Line
	r := regionReader{t}
	for t.Next() {
		lines = append(lines, r.line())
	}
	return lines, wrong.Err()
}

// regionReader reads the row its table stands on.
type regionReader struct{ *table.Table }

func (r regionReader) line() shifts.Line {
	l := shifts.Line{
		Window: r.text("window"), ID: r.text("region_id"), Name: r.text("region"),
		AreaKm2:    r.number("area_km2", table.Number{High: 1e9, Unit: "km²"}),
		NeverShare: r.share("never_share"), AlwaysShare: r.share("always_share"), NoDataShare: r.share("nodata_share"), FlatShare: r.share("flat_share"),
	}
	if r.Text(r.Find("median_day")) == "" {
		return l
	}
	l.Dated = true
	l.Median, l.P10, l.P90 = r.day("median_day"), r.day("p10_day"), r.day("p90_day")
	l.Week = season.Week(r.number("median_week", table.Number{Low: 1, High: season.Weeks, Whole: true}))
	l.Calendar = status.Calendar{
		AheadFrom: r.date("ahead_from"), OntimeFrom: r.date("ontime_from"), OntimeTo: r.date("ontime_to"), CatchupTo: r.date("catchup_to"),
	}
	return l
}

// text returns a field as it was before it was kept from being a formula.
func (r regionReader) text(column string) string {
	text := r.Text(r.Find(column))
	if rest, ok := strings.CutPrefix(text, "'"); ok && guarded(rest) == text {
		text = rest
	}
	return strings.Clone(text)
}

func (r regionReader) number(column string, want table.Number) float64 {
	v, _ := r.Number(r.Find(column), want)
	return v
}

func (r regionReader) share(column string) float64 {
	return r.number(column, table.Number{High: 1, Optional: true})
}

func (r regionReader) day(column string) season.Day {
	return season.Day(r.number(column, table.Number{Low: 1, High: season.YearDays + 1, Unit: "days"}))
}

// date reads a month and a day, 03-12.
func (r regionReader) date(column string) season.Day {
	text := r.Text(r.Find(column))
	at, err := time.Parse(time.DateOnly, "2001-"+text) // a year without 29 February, as the table's
	if err != nil {
		r.Fault("%s %q is no date; want month and day, 03-12", column, text)
		return 0
	}
	return season.Date(at.Month(), at.Day())
}
