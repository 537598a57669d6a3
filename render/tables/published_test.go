package tables_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/table"
	"weekband/regions/shifts"
	"weekband/render/tables"
)

// What is written is read back, names that were kept from being formulas too.
func TestRegionsComeBack(t *testing.T) {
	var b bytes.Buffer
	if err := tables.RegionsCSV(&b, rows()); err != nil {
		t.Fatal(err)
	}
	got, err := tables.ReadRegions(table.Text{Reader: &b, Name: "regions.csv"})
	if err != nil || len(got) != 2 {
		t.Fatalf("%v, %v", got, err)
	}
	want := shifts.Line{
		Window: "spring", ID: "SV", Name: "Sellow Vale", AreaKm2: 1234.6, Dated: true, Median: 102.3, P10: 99, P90: 2, Week: 15,
		Calendar:   status.Calendar{AheadFrom: 362, OntimeFrom: 71, OntimeTo: 102, CatchupTo: 140},
		NeverShare: 0.1235, FlatShare: 0.25,
	}
	if got[0] != want {
		t.Errorf("%+v, want %+v", got[0], want)
	}
	if l := got[1]; l.ID != "=1+1" || l.Name != "@cmd, \"quoted\"" || l.Dated || l.AlwaysShare != 1 {
		t.Errorf("%+v", l)
	}
}

// An edition whose table has fewer columns, in another order, is read; damage
// is told by its line.
func TestOtherTablesOfRegions(t *testing.T) {
	const head = "region_id,window,region,area_km2,median_day,p10_day,p90_day,median_week,ahead_from,ontime_from,ontime_to,catchup_to\n"
	read := func(text string) ([]shifts.Line, error) {
		return tables.ReadRegions(table.Text{Reader: strings.NewReader(text), Name: "regions.csv"})
	}
	got, err := read(head + "A,spring,'tis Vale,10,80.5,79,82,12,01-30,02-28,03-21,05-01\n")
	if err != nil || len(got) != 1 || got[0].Name != "'tis Vale" || got[0].Week != 12 || got[0].Calendar.OntimeFrom != season.Date(2, 28) || !got[0].HasWeek() {
		t.Errorf("%+v, %v", got, err)
	}
	for text, want := range map[string]string{
		"A,spring,Vale,10,80.5,79,82,53,01-30,02-28,03-21,05-01\n":  "regions.csv:2: median_week 53 is outside 1 to 52",
		"A,spring,Vale,10,80.5,79,82,12,01-30,02-30,03-21,05-01\n":  `regions.csv:2: ontime_from "02-30" is no date; want month and day, 03-12`,
		"A,spring,Vale,10,800.5,79,82,12,01-30,02-28,03-21,05-01\n": "median_day 800.5 is outside 1 to 366 days",
	} {
		if _, err := read(head + text); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
	if _, err := read("region,weeks\n"); err == nil || !strings.Contains(err.Error(), `no column "window"`) {
		t.Errorf("another table: %v", err)
	}
}

func TestShiftsCSV(t *testing.T) {
	a := shifts.Line{ID: "=SV", Name: "Sellow Vale", Dated: true, Median: 102.3, Week: 15, Calendar: status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 102, CatchupTo: 140}}
	b := a
	b.Median, b.Week, b.Calendar.OntimeTo = 95, 14, 95
	var out bytes.Buffer
	err := tables.ShiftsCSV(&out, []tables.WindowShifts{{Window: "spring", Rows: []shifts.Row{
		{ID: "=SV", Name: "Sellow Vale", Before: &a, After: &b, Common: 0.98765, Median: -7.26, P10: -9, P90: -0.04, Earlier: 0.75, Same: 0.25},
		{ID: "N", Name: "New", After: &shifts.Line{ID: "N"}},
	}}})
	if err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&out).ReadAll()
	if err != nil || len(all) != 3 {
		t.Fatalf("%v, %v", all, err)
	}
	field := func(row int, name string) string {
		for i, column := range all[0] {
			if column == name {
				return all[row][i]
			}
		}
		t.Fatalf("no column %s in %q", name, all[0])
		return ""
	}
	for name, want := range map[string]string{
		"window": "spring", "region_id": "'=SV", "change": "earlier", "weeks_later": "-1", "week_before": "15", "week_after": "14",
		"median_day_before": "102.3", "median_day_after": "95", "days_later": "-7.3", "p10_days_later": "-9", "p90_days_later": "0",
		"common_share": "0.9877", "earlier_share": "0.75", "same_share": "0.25", "ontime_to_before": "04-12", "ontime_to_after": "04-05", "redrawn": "",
	} {
		if got := field(1, name); got != want {
			t.Errorf("%s is %q, want %q", name, got, want)
		}
	}
	for name, want := range map[string]string{"change": "added", "weeks_later": "", "week_before": "", "week_after": "", "days_later": "", "common_share": "0", "ontime_to_after": ""} {
		if got := field(2, name); got != want {
			t.Errorf("of a new region %s is %q, want %q", name, got, want)
		}
	}
}
