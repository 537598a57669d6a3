package atlas

import (
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/grid/worth"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render"
	"weekband/render/daychart"
	"weekband/render/wording"
)

// late is a window with seeding.
var late = status.Window{
	ID: "late", Title: "Late", Trigger: crossing.Trigger{Level: 21, Direction: crossing.Cooling}, Seeding: &worth.Overseeding{Day: 258, Interval: 77},
}

// vale is a row whose weeks hold for a share of the ground; on the rest it
// never gets warm.
func vale(name string, median season.Day, share float64) report.Row {
	return report.Row{
		Window: &late, ID: name, Name: name, Dated: share > 0, Median: median,
		Shares:   zonal.Summary{DatedShare: share, NeverShare: 1 - share},
		Calendar: status.Calendar{AheadFrom: median - 60, OntimeFrom: median - 39, OntimeTo: median, CatchupTo: median + 40},
		Value:    &status.Value{Seeding: &worth.Kept{ClosedFrom: 181, ClosedTo: 318, OntimeLost: 30}},
	}
}

// On handouts the share of the ground that the weeks hold for comes first when
// it is less than half, last when it is not all.
func TestHandoutsTellForHowMuchGroundWeeksHold(t *testing.T) {
	l, f := wording.English(), &weeks.Field{Window: late}
	for _, c := range []struct {
		share float64
		at    string
		row   daychart.CalendarRow
	}{
		{0.04, "first", daychart.CalendarRow{Words: "a week on 4% of its ground only"}},
		{0.64, "last", daychart.CalendarRow{Part: "64%", Calendar: vale("", 260, 1).Calendar}},
		{1, "nowhere", daychart.CalendarRow{Calendar: vale("", 260, 1).Calendar}},
	} {
		r := vale("Taveland", 260, c.share)
		list := facts(l, f, &r)
		part := render.Fact{Label: "These weeks hold for", Value: l.Percent(c.share) + " of the region's ground", Best: c.share < 0.5}
		at := "nowhere"
		for i, fact := range list {
			switch {
			case fact == part && i == 0:
				at = "first"
			case fact == part && i == len(list)-1:
				at = "last"
			case fact.Label == part.Label:
				t.Errorf("%v: fact %d is %v", c.share, i, fact)
			}
		}
		if at != c.at {
			t.Errorf("%v: the share stands %s in %v, want it %s", c.share, at, list, c.at)
		}
		c.row.Name = r.Name
		if got := handoutRow(l, &r); got != c.row {
			t.Errorf("%v: on the window's handout %+v, want %+v", c.share, got, c.row)
		}
	}
}

func TestHandoutsTellTheLastDayBeforeSeeding(t *testing.T) {
	l := wording.English()
	for lost, want := range map[float64]string{0: "Jun 30", 30: "Jun 30; seeding costs 30 of the 39 days of on time", 38.8: "Jun 30; no day of on time is left"} {
		r := vale("Taveland", 260, 1)
		r.Value.Seeding.OntimeLost = lost
		found := false
		for _, fact := range facts(l, &weeks.Field{Window: late}, &r) {
			found = found || fact == render.Fact{Label: "Last application that keeps seeding on Sep 15 open", Value: want}
		}
		if !found {
			t.Errorf("%v days lost: no fact %q", lost, want)
		}
		if r.Value.Seeding = nil; len(facts(l, &weeks.Field{Window: late}, &r)) == 0 {
			t.Error("no facts without seeding")
		}
	}
}

// Of more regions than a handout holds, those without weeks of their own come
// behind the latest.
func TestHandoutsBeginWithTheEarliest(t *testing.T) {
	rows := []report.Row{vale("Nowhere", 0, 0), vale("Skarrow", 230, 0.04)}
	for i := range render.MostRows {
		rows = append(rows, vale("Vale", season.Day(300-i), 0.9))
	}
	order := handoutOrder(rows)
	if n := len(order); order[0].Median != 301-render.MostRows || order[n-3].Median != 300 || order[n-2].Name != "Nowhere" || order[n-1].Name != "Skarrow" {
		t.Errorf("from %s on %v to %s on %v", order[0].Name, order[0].Median, order[n-1].Name, order[n-1].Median)
	}
	if few := handoutOrder(rows[:3]); few[0].Name != "Nowhere" || few[1].Name != "Skarrow" {
		t.Errorf("fewer are not in the order of their names: %s, %s", few[0].Name, few[1].Name)
	}
}
