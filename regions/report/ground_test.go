package report_test

import (
	"testing"

	"weekband/regions/report"
	"weekband/regions/zonal"
)

// Worked by hand on the lopsided field: five columns have a week, the sixth
// has none, the seventh no data.
func TestWhoseWeeksAreTheRegions(t *testing.T) {
	rows, err := built(
		strip("whole", -91, -86), strip("half", -87, -85), strip("less", -86.9, -85), strip("shore", -87, -84), strip("none", -86, -84),
	)
	if err != nil {
		t.Fatal(err)
	}
	wants := map[string][3]bool{ // dated, mostly, throughout
		"whole": {true, true, true}, "half": {true, true, false}, "less": {true, false, false},
		"shore": {true, false, false}, "none": {false, false, false},
	}
	for _, r := range rows {
		if got := [3]bool{r.Dated, r.MostlyDated(), r.DatedThroughout()}; got != wants[r.ID] {
			t.Errorf("%s, %+v: dated, mostly, throughout %v, want %v", r.ID, r.Shares, got, wants[r.ID])
		}
	}
}

// Ground without data lowers the share that has a week, and is not ground known
// to have none.
func TestGroundWithoutData(t *testing.T) {
	for name, c := range map[string]struct {
		shares             zonal.Summary
		mostly, throughout bool
	}{
		"a coast":         {zonal.Summary{DatedShare: 0.9, NoDataShare: 0.1}, true, true},
		"a corner":        {zonal.Summary{DatedShare: 0.1, NoDataShare: 0.9}, false, false},
		"a hair without":  {zonal.Summary{DatedShare: 0.996, NeverShare: 0.002, FlatShare: 0.002}, true, true},
		"a bit without":   {zonal.Summary{DatedShare: 0.994, NeverShare: 0.003, FlatShare: 0.003}, true, false},
		"just not half":   {zonal.Summary{DatedShare: 0.494, NeverShare: 0.506}, false, false},
		"as good as half": {zonal.Summary{DatedShare: 0.496, NeverShare: 0.504}, true, false},
		"always, in part": {zonal.Summary{DatedShare: 0.6, AlwaysShare: 0.4}, true, false},
	} {
		r := report.Row{Dated: true, Shares: c.shares}
		if r.MostlyDated() != c.mostly || r.DatedThroughout() != c.throughout {
			t.Errorf("%s: mostly %v, throughout %v", name, r.MostlyDated(), r.DatedThroughout())
		}
	}
}
