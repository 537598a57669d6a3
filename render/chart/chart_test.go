package chart

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/worth"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/wording"
)

const measured = "soil at 4 in (10 cm)"

var spring = status.Window{
	ID: "spring", Title: "Spring", Trigger: crossing.Trigger{Level: 12.8, Direction: crossing.Warming}, Treatment: worth.Usual(worth.Medium),
}

// wave is a year of soil that is coldest, 4 °C, on day 25 and warmest, 26 °C,
// half a year later.
func wave() *curve.Year {
	var y curve.Year
	for i := range y {
		y[i] = 15 - 11*math.Cos(2*math.Pi*(float64(i)-24)/season.YearDays)
	}
	return &y
}

// region is a region whose crossing is that of the wave moved by some days.
func region(name string, later season.Day) report.Row {
	day := crossing.Find(wave(), spring.Trigger).Day + later
	var soil curve.Year
	for i := range soil {
		soil[i] = wave().At(season.Day(i+1) - later)
	}
	r := report.Row{
		Window: &spring, ID: name, Name: name, Dated: true, Median: day, P10: day - 3, P90: day + 3, Soil: &soil, Doubt: 11, Shares: zonal.Summary{DatedShare: 1},
		Calendar: status.Calendar{AheadFrom: day - 51, OntimeFrom: day - 30, OntimeTo: day, CatchupTo: day + 40},
	}
	v := spring.Value(&soil, r.Calendar, r.Doubt, new(worth.Season))
	r.Value = &v
	return r
}

func some(n int) []report.Row {
	var rows []report.Row
	for i := range n {
		k := i * 7 % n // not in their order
		rows = append(rows, region(fmt.Sprintf("Vale %d", k), season.Day(float64(k)/2)))
	}
	return rows
}

// decoded reads an option back.
func decoded(t *testing.T, c Chart) (o struct {
	Series []struct {
		Name string
		Data []struct{ Value [2]float64 }
	}
	XAxis, YAxis []struct{ Data []any }
	Aria         struct{ Label struct{ Description string } }
	Weekband     reading
}) {
	t.Helper()
	if err := json.Unmarshal(c.Option, &o); err != nil {
		t.Fatal(err)
	}
	if o.Aria.Label.Description != c.Alt || c.Alt == "" {
		t.Errorf("%s is described as %q, want %q", c.ID, o.Aria.Label.Description, c.Alt)
	}
	return o
}

// all returns the four charts of invented data.
func all(t *testing.T) []Chart {
	t.Helper()
	f, terrain := slope(t)
	r := region(`Vale </script><b>`, 0)
	list := make([]Chart, 4)
	list[0], _ = Statuses(nil, append(some(3), r))
	list[1], _ = Soil(nil, &r, measured)
	list[2], _ = Worth(nil, &r)
	list[3], _ = Relation(nil, f, terrain)
	return list
}

// The same inputs give the same bytes, nothing names another place, and names
// cannot leave the JSON.
func TestFiguresAreFixedAndInert(t *testing.T) {
	again := all(t)
	for i, c := range all(t) {
		page, err := c.HTML()
		if err != nil {
			t.Fatal(err)
		}
		other, _ := again[i].HTML()
		if page != other || !bytes.Equal(c.Option, again[i].Option) {
			t.Errorf("%s: other bytes the second time", c.ID)
		}
		for _, bad := range []string{"://", "style=", "<b>", "onload"} {
			if strings.Contains(string(page), bad) {
				t.Errorf("%s: the figure holds %q", c.ID, bad)
			}
		}
		if strings.Count(string(page), "</script>") != 1 {
			t.Errorf("%s: a name ends the script", c.ID)
		}
		for _, row := range c.Table.Rows {
			if len(row) != len(c.Table.Head) {
				t.Errorf("%s: %d fields under %d heads", c.ID, len(row), len(c.Table.Head))
			}
		}
		if len(c.Option) > 40_000 {
			t.Errorf("%s: %d bytes of options", c.ID, len(c.Option))
		}
	}
}

// Every colour an option names is in the style sheets.
func TestColoursAreDefined(t *testing.T) {
	style, err := assets.ReadFile("assets/charts.css")
	if err != nil {
		t.Fatal(err)
	}
	names := regexp.MustCompile(`"(--[a-z-]+)"`)
	for _, c := range all(t) {
		for _, m := range names.FindAllSubmatch(c.Option, -1) {
			if !bytes.Contains(style, append(m[1], ':')) {
				t.Errorf("%s names the colour %s, which charts.css does not define for paper", c.ID, m[1])
			}
		}
		for _, k := range c.Key {
			if look := strings.Fields(k.Class)[0]; !bytes.Contains(style, []byte(".chart ."+look)) {
				t.Errorf("%s: charts.css has no look for %q of the key", c.ID, look)
			}
		}
	}
}

// The library asks nothing of anyone and runs no text as code.
func TestLibraryIsInert(t *testing.T) {
	text, err := assets.ReadFile("assets/echarts.js")
	if err != nil {
		t.Fatal(err)
	}
	bad := regexp.MustCompile(`https?://|XMLHttpRequest|\bfetch\(|importScripts|WebSocket|sendBeacon|\beval\(|new Function`)
	if at := bad.Find(text); at != nil {
		t.Errorf("echarts.js holds %q", at)
	}
	for _, name := range []string{"echarts-LICENSE.txt", "echarts-NOTICE.txt"} {
		if data, err := assets.ReadFile("assets/" + name); err != nil || !bytes.Contains(data, []byte("Apache")) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestNumbersInWords(t *testing.T) {
	for got, want := range map[string]string{
		warmth(units.Celsius(-3)): "27 °F (−3 °C)", grouped(12345.6): "12,346", grouped(-1000): "−1,000", grouped(999): "999", degrees(-41.25): "41.3° S",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

func TestWithoutDataThereIsNoChart(t *testing.T) {
	empty := report.Row{Window: &spring, Name: "Nowhere"}
	if _, ok := Statuses(nil, []report.Row{empty}); ok {
		t.Error("regions without weeks have a heat map")
	}
	if _, ok := Statuses(nil, nil); ok {
		t.Error("no regions have a heat map")
	}
	if _, ok := Soil(nil, &empty, measured); ok {
		t.Error("a region without a year has a curve")
	}
	if _, ok := Worth(nil, &empty); ok {
		t.Error("a region without a year has a chart of worth")
	}
	f, _ := slope(t)
	f.Day = grid.NewRaster[float32](f.Grid())
	if _, ok := Relation(nil, f, nil); ok {
		t.Error("a field without days has a chart")
	}
}

// Dates follow the order of the language.
func TestDatesDayFirst(t *testing.T) {
	l := wording.English()
	l.Order = wording.DayFirst
	r := region("Orrendale", 0)
	c, _ := Soil(l, &r, measured)
	if want := l.Week(r.Median.Week()); !strings.Contains(strings.ReplaceAll(c.Alt, "\u00a0", " "), want) || c.Table.Rows[0][0].Text != "1–7 Jan" {
		t.Errorf("%q lacks %q; first week %q", c.Alt, want, c.Table.Rows[0][0].Text)
	}
}
