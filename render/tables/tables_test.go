package tables_test

import (
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/caution"
	"weekband/render/tables"
)

var window = status.Window{ID: "spring", Title: "Spring"}

func rows() []report.Row {
	return []report.Row{
		{
			Window: &window, ID: "SV", Name: "Sellow Vale", Dated: true, Median: 102.26, P10: 99.04, P90: 364.98 + 2,
			Shares: zonal.Summary{AreaKm2: 1234.56, NeverShare: 0.12345, FlatShare: 0.25, DatedShare: 0.62655}, Error: 4.06,
			Calendar: status.Calendar{AheadFrom: -2.5, OntimeFrom: 71, OntimeTo: 102.26, CatchupTo: 140},
		},
		{Window: &window, ID: "=1+1", Name: "@cmd, \"quoted\"", Shares: zonal.Summary{AlwaysShare: 1}},
	}
}

func ExampleRegionsCSV() {
	var b strings.Builder
	if err := tables.RegionsCSV(&b, rows()[:1]); err != nil {
		fmt.Println(err)
	}
	fmt.Print(strings.ReplaceAll(b.String(), "\r\n", "\n")) // lines end as RFC 4180 says
	// Output:
	// window,region_id,region,area_km2,median_day,p10_day,p90_day,median_week,ahead_from,ontime_from,ontime_to,catchup_to,never_share,always_share,nodata_share,flat_share,expected_error_days
	// spring,SV,Sellow Vale,1234.6,102.3,99,2,15,12-28,03-12,04-12,05-20,0.1235,0,0,0.25,4.1
}

// Names are data: none becomes a formula when a spreadsheet opens the CSV.
func TestNamesAreNoFormulas(t *testing.T) {
	var b bytes.Buffer
	if err := tables.RegionsCSV(&b, rows()); err != nil {
		t.Fatal(err)
	}
	all, err := csv.NewReader(&b).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if got := all[2][:3]; got[1] != "'=1+1" || got[2] != "'@cmd, \"quoted\"" {
		t.Errorf("fields %q", got)
	}
	if all[2][4] != "" || all[2][8] != "" {
		t.Errorf("a region without a crossing has dates: %q", all[2])
	}
}

// Some spreadsheets part any CSV at semicolons or tabs, which must not set a
// formula free; the characters are those of OWASP ASVS 5.0, 1.2.10.
func TestFieldsAreQuotedAndGuarded(t *testing.T) {
	for name, want := range map[string]string{
		"Ash;=1+1": `"Ash;=1+1"`, "Ash\t=1": "\"Ash\t=1\"", `Ash",=1,"`: `"Ash"",=1,"""`, "=1": "'=1", "+1": "'+1", "-1": "'-1", "@x": "'@x",
		"\t=1": "\"'\t=1\"", "＝1": "'＝1", "\x00=1": "'\x00=1", "'s Holt": "'s Holt", "Ash Holt": "Ash Holt", " Ash": `" Ash"`, "Ash\nHolt": "\"Ash\nHolt\"",
	} {
		var b bytes.Buffer
		if err := tables.RegionsCSV(&b, []report.Row{{Window: &window, ID: "A", Name: name}}); err != nil {
			t.Fatal(err)
		}
		_, line, _ := strings.Cut(b.String(), "\r\n")
		if got, _ := strings.CutPrefix(line, "spring,A,"); !strings.HasPrefix(got, want+",0,") {
			t.Errorf("%q: line %q, want %q in it", name, line, want)
		}
		all, err := csv.NewReader(&b).ReadAll()
		if err != nil || strings.TrimPrefix(all[1][2], "'") != strings.TrimPrefix(name, "'") {
			t.Errorf("%q reads back as %q (%v)", name, all, err)
		}
	}
}

func TestSheetHoldsTheSameTable(t *testing.T) {
	var b bytes.Buffer
	if err := tables.RegionsSheet(&b, rows(), caution.All[:]); err != nil {
		t.Fatal(err)
	}
	again := bytes.Buffer{}
	if err := tables.RegionsSheet(&again, rows(), caution.All[:]); err != nil || !bytes.Equal(b.Bytes(), again.Bytes()) {
		t.Errorf("the same rows give other bytes (%v)", err)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for cell, want := range map[string]string{"A1": "window", "C2": "Sellow Vale", "E2": "102.3", "J2": "03-12", "B3": "=1+1", "E3": ""} {
		if got, err := f.GetCellValue("regions", cell); err != nil || got != want {
			t.Errorf("%s holds %q (%v), want %q", cell, got, err, want)
		}
		if formula, _ := f.GetCellFormula("regions", cell); formula != "" {
			t.Errorf("%s holds the formula %q", cell, formula)
		}
	}
	for i, want := range caution.All {
		if got, err := f.GetCellValue("before you act", fmt.Sprintf("A%d", i+1)); err != nil || got != want {
			t.Errorf("caution %d is %q (%v)", i+1, got, err)
		}
	}
}

func TestCellsCSV(t *testing.T) {
	g, err := grid.New(grid.Box{West: -91, South: 37, East: -84, North: 39.5}, 5, 7)
	if err != nil {
		t.Fatal(err)
	}
	f := &weeks.Field{
		Window: window, Cut: 1,
		Reason: grid.NewRaster[crossing.Reason](g), Day: grid.NewRaster[float32](g), Spread: grid.NewRaster[float32](g),
		Error: grid.NewRaster[float32](g),
	}
	dated, never := grid.Cell{Row: 1, Col: 2}, grid.Cell{Row: 4, Col: 6}
	f.Reason.Set(dated, crossing.Dated)
	f.Day.Set(dated, 5.25) // an early year's day falls in the year before
	f.Spread.Set(dated, 11)
	f.Error.Set(dated, 6.6)
	f.Reason.Set(never, crossing.Never)
	var b bytes.Buffer
	if err := tables.CellsCSV(&b, []*weeks.Field{f}); err != nil {
		t.Fatal(err)
	}
	zip, err := gzip.NewReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(zip)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"window,row,col,lat,lon,area_km2,crossing_day,early_year_day,late_year_day,reason,standard_error_days",
		fmt.Sprintf("spring,1,2,38.75,-88.5,%.3f,5.25,353.81,21.69,dated,6.6", g.CellArea(1)), // 1.2816·√(11² + 6.6²) = 16.44 days about the typical one
		fmt.Sprintf("spring,4,6,37.25,-84.5,%.3f,,,,never,", g.CellArea(4)),
	}
	if got := strings.Join(want, "\r\n") + "\r\n"; string(text) != got {
		t.Errorf("got\n%s\nwant\n%s", text, got)
	}
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		v    float64
		n    int
		want float64
	}{{1.25, 1, 1.2}, {-0.04, 1, 0}, {2.675, 2, 2.67}, {season.YearDays, 0, 365}} {
		if got := tables.Round(c.v, c.n); got != c.want {
			t.Errorf("Round(%v, %d) = %v, want %v", c.v, c.n, got, c.want)
		}
	}
}
