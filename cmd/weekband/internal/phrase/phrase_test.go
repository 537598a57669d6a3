package phrase

import (
	"strings"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/grid/worth"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/wording"
)

// autumn is a window of the autumn.
var autumn = status.Window{ID: "late", Title: "Late", Trigger: crossing.Trigger{Level: 21, Direction: crossing.Cooling}}

// ground is a row whose weeks hold for a share of the ground; on the rest it
// never gets warm.
func ground(name string, median season.Day, share float64) report.Row {
	return report.Row{
		Window: &autumn, ID: name, Name: name, Dated: share > 0, Median: median,
		Shares:   zonal.Summary{DatedShare: share, NeverShare: 1 - share},
		Calendar: status.Calendar{AheadFrom: median - 60, OntimeFrom: median - 39, OntimeTo: median, CatchupTo: median + 40},
		Value:    &status.Value{Seeding: &worth.Kept{ClosedFrom: 181, ClosedTo: 318, OntimeLost: 30}},
	}
}

// Neither the earliest nor the latest region is one of which less than half
// has a week; how many those are is said.
func TestShownTellsOfMostOfARegion(t *testing.T) {
	l, f := wording.English(), &weeks.Field{Window: autumn}
	rows := []report.Row{ground("Skarrow", 230, 0.04), ground("Orrendale", 263, 0.93), ground("High Vennet", 320, 0.49), ground("Lindrey", 283, 1), ground("Nowhere", 0, 0)}
	text := Shown(l, f, "soil", rows)
	for _, want := range []string{"Earliest in Orrendale", "latest in Lindrey", "Left out: 3 regions in which less than half of the ground has such a week."} {
		if !strings.Contains(text, want) {
			t.Errorf("%q lacks %q", text, want)
		}
	}
	if all := Shown(l, f, "soil", []report.Row{rows[1], rows[3]}); strings.Contains(all, "Left out") {
		t.Errorf("none is left out of %q", all)
	}
}
