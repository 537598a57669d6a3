package tables

import (
	"io"

	"weekband/regions/report"
)

// worthColumns are the columns of the table of worth. Shares are from 0 to 1,
// dates month and day, ISO 8601.
var worthColumns = []string{
	"window", "region_id", "region", "worth_ahead_from", "worth_ontime_from", "worth_ontime_to", "worth_two_weeks_late", "worth_catchup_to",
	"best_day", "worth_best", "emerged_two_weeks_late", "second_due", "seeding_last_day", "ontime_days_lost_to_seeding",
}

// WorthCSV writes what applications come to as CSV (RFC 4180, UTF-8), one line
// a window and region that has a calendar: the share of the season's
// germination that an application would still stop on the first and the last
// day of ahead of time, on time and catching up, two weeks after on time, and
// on the best day; the share of weeds up two weeks after on time; when a second
// application is due, empty when the first lasts; and, where grass is seeded,
// the last day that keeps the seeding open and the days of on time it costs.
func WorthCSV(w io.Writer, rows []report.Row) error {
	var values [][]any
	for _, r := range rows {
		if r.Value != nil {
			values = append(values, worthValues(r))
		}
	}
	return writeCSV(w, worthColumns, values)
}

func worthValues(r report.Row) []any {
	c := &r.Value.Costs
	values := []any{r.Window.ID, r.ID, r.Name}
	for _, cost := range []float64{c.AheadFrom.Worth, c.OntimeFrom.Worth, c.OntimeTo.Worth, c.TwoWeeksLate.Worth, c.CatchupTo.Worth} {
		values = append(values, Round(cost, 3))
	}
	values = append(values, c.Best.Day.ISO(), Round(c.Best.Worth, 3), Round(c.TwoWeeksLate.Emerged, 3))
	if r.Value.SecondDue {
		values = append(values, r.Value.Second.ISO())
	} else {
		values = append(values, nil)
	}
	if k := r.Value.Seeding; k != nil {
		return append(values, k.ClosedFrom.ISO(), Round(k.OntimeLost, 1))
	}
	return append(values, nil, nil)
}
