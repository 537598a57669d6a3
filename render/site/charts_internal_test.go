package site

import (
	"encoding/json"
	"io/fs"
	"math"
	"regexp"
	"strings"
	"testing"
	"time"

	"weekband/grid/oracle"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/render/chart"
	"weekband/render/wording"
)

// chartNode runs an expression after the script of charts, with in as its
// input, and decodes what it gives into out.
func chartNode(t *testing.T, in any, expression string, out any) {
	t.Helper()
	oracle.Need(t, "node")
	text, err := json.Marshal(in)
	if err != nil {
		t.Fatal(err)
	}
	const read = "const given = JSON.parse(require('fs').readFileSync(0, 'utf8'));\n"
	script := "'use strict';\n" + source(chartScripts) + read + "console.log(JSON.stringify(" + expression + "));\n"
	if err := json.Unmarshal(oracle.Run(t, text, "node", "-e", script), out); err != nil {
		t.Fatal(err)
	}
}

// Dates, weeks and statuses of the charts are those of the rest of weekband.
func TestChartDaysAgreeWithGo(t *testing.T) {
	l := wording.English()
	calendars := []status.Calendar{
		{AheadFrom: 20, OntimeFrom: 41, OntimeTo: 80, CatchupTo: 120.5}, {AheadFrom: -30, OntimeFrom: -9, OntimeTo: 25, CatchupTo: 70},
		{AheadFrom: 260, OntimeFrom: 281, OntimeTo: 330, CatchupTo: 390},
	}
	given := struct {
		Days      []float64
		Months    [12]string
		Calendars [][4]float64
	}{Months: l.Dates.Short}
	for d := -400.75; d < 800; d += 1.625 {
		given.Days = append(given.Days, d)
	}
	for _, c := range calendars {
		given.Calendars = append(given.Calendars, [4]float64{float64(c.AheadFrom), float64(c.OntimeFrom), float64(c.OntimeTo), float64(c.CatchupTo)})
	}
	var got []struct {
		Dates    [2]string
		Weeks    [2]string
		Statuses []int
	}
	chartNode(t, given, `given.Days.map(d => ({
		Dates: [false, true].map(first => chartDate(d, given.Months, first)),
		Weeks: [false, true].map(first => chartSpan(...chartWeek(d), given.Months, first)),
		Statuses: given.Calendars.map(c => chartStatus(c, d)),
	}))`, &got)
	for i, d := range given.Days {
		day := season.Day(d)
		for j, order := range wording.Orders {
			l.Order = order
			if want := l.Date(day); got[i].Dates[j] != want {
				t.Errorf("day %v is %q, want %q", d, got[i].Dates[j], want)
			}
			if want := l.Week(day.Week()); got[i].Weeks[j] != want {
				t.Errorf("day %v is in the week of %q, want %q", d, got[i].Weeks[j], want)
			}
		}
		for j, c := range calendars {
			if want := c.At(day); status.All[got[i].Statuses[j]] != want {
				t.Errorf("day %v under %+v is %v, want %v", d, c, got[i].Statuses[j], want)
			}
		}
	}
}

// Temperatures are those of grid/units; a foot is 0.3048 m (ISO 31-1).
func TestChartQuantitiesAgreeWithGo(t *testing.T) {
	var got struct {
		Celsius, Kelvin, Metres []float64
		Written                 []string
	}
	values := []float64{-40, -3.2, 0, 12.8, 100, 1234.5}
	chartNode(t, values, `(() => {
		const of = (name, fahrenheit) => chartQuantity(name, {months: []}, {fahrenheit});
		return {
			Celsius: given.map(of("temperature", true).convert), Kelvin: given.map(of("temperature", true).difference), Metres: given.map(of("elevation", true).convert),
			Written: [of("temperature", true).write(-3.2), of("temperature", false).exact(-12.8), of("elevation", true).write(12345.6), of("elevation", false).write(999.6),
				of("latitude", true).write(-41.5), of("latitude", true).write(7), of("share", true).write(42.4)],
		};
	})()`, &got)
	for i, v := range values {
		if math.Abs(got.Celsius[i]-units.Celsius(v).Fahrenheit()) > 1e-9 || math.Abs(got.Kelvin[i]-units.Delta(v).Fahrenheit()) > 1e-9 {
			t.Errorf("%v °C is %v °F, %v K are %v; grid/units has %v and %v", v, got.Celsius[i], v, got.Kelvin[i], units.Celsius(v).Fahrenheit(), units.Delta(v).Fahrenheit())
		}
		if math.Abs(got.Metres[i]*0.3048-v) > 1e-9 {
			t.Errorf("%v m are %v ft", v, got.Metres[i])
		}
	}
	want := "−3 °F|−12.8 °C|12,346 ft|1,000 m|41.5° S|7° N|42 %"
	if text := strings.Join(got.Written, "|"); text != want {
		t.Errorf("written %s, want %s", text, want)
	}
}

// Axes of days have ticks where months begin, and names only of months with
// room.
func TestChartMonths(t *testing.T) {
	var got struct{ Begins, Middles, Ticks []float64 }
	chartNode(t, nil, `{Begins: chartMonthBegins(-30, 400), Middles: chartMonthMiddles(355, 400, 12), Ticks: chartDateTicks(50, 100)}`, &got)
	var begins []float64
	for _, year := range []float64{-1, 0, 1} {
		for m := time.January; m <= time.December; m++ {
			if d := float64(season.MonthBegin(m)) + year*season.YearDays; d >= -30 && d <= 400 {
				begins = append(begins, d)
			}
		}
	}
	same := func(what string, got, want []float64) {
		if len(got) != len(want) {
			t.Errorf("%s: %v, want %v", what, got, want)
			return
		}
		for i := range want {
			if got[i] != want[i] {
				t.Errorf("%s: %v, want %v", what, got, want)
			}
		}
	}
	same("months begin", got.Begins, begins)
	same("middles of January alone", got.Middles, []float64{381.5}) // 11 days of December and 3 of February have no room
	same("ticks between", got.Ticks, []float64{53, 60, 67, 74, 81, 91, 98})
}

// Axes of other quantities run over a few round numbers that cover them.
func TestChartRoundSteps(t *testing.T) {
	cases := [][3]float64{{0, 100, 5}, {-7.3, 31.9, 6}, {18.4, 90.1, 6}, {3, 7120, 8}, {40.01, 40.39, 4}}
	var got [][]float64
	chartNode(t, cases, `given.map(c => chartRound(...c))`, &got)
	for i, c := range cases {
		steps := got[i]
		n := len(steps)
		step := steps[1] - steps[0]
		lead := step / math.Pow(10, math.Floor(math.Log10(step)+1e-9))
		if steps[0] > c[0] || steps[n-1] < c[1] || n > int(c[2])+2 || steps[1] <= c[0] || steps[n-2] >= c[1] {
			t.Errorf("%v to %v: steps %v", c[0], c[1], steps)
		}
		if r := math.Round(lead); math.Abs(lead-r) > 1e-6 || r != 1 && r != 2 && r != 5 {
			t.Errorf("%v to %v: steps of %v", c[0], c[1], step)
		}
	}
}

// The script is one strict function, leaves nothing behind, and touches pages
// only by ways a strict policy allows.
func TestChartScriptIsStrict(t *testing.T) {
	script := ChartScript()
	for _, bad := range []string{"innerHTML", "outerHTML", "insertAdjacent", "eval(", "new Function", "document.write", "setAttribute(\"style", "fetch(", "XMLHttp", "://", "import(", "localStorage", "cookie"} {
		if strings.Contains(script, bad) {
			t.Errorf("the script holds %q", bad)
		}
	}
	var left []string
	oracle.Need(t, "node")
	const run = "const before = new Set(Object.getOwnPropertyNames(globalThis)); require('vm').runInThisContext(require('fs').readFileSync(0, 'utf8'));" +
		"console.log(JSON.stringify(Object.getOwnPropertyNames(globalThis).filter(n => !before.has(n))))"
	if err := json.Unmarshal(oracle.Run(t, []byte(script), "node", "-e", run), &left); err != nil || len(left) > 0 {
		t.Errorf("the script leaves %q behind (%v)", left, err)
	}
}

// On paper charts have the light colours of the pages, but for their paper.
func TestChartsOnPaperHaveTheLightColours(t *testing.T) {
	style, err := parts.ReadFile("assets/style.css")
	if err != nil {
		t.Fatal(err)
	}
	charts, err := fs.ReadFile(chart.Assets(), "charts.css")
	if err != nil {
		t.Fatal(err)
	}
	light, _, _ := strings.Cut(string(style), "@media")
	_, paper, _ := strings.Cut(string(charts), ".chart.printing {")
	paper, _, _ = strings.Cut(paper, "}")
	for _, name := range []string{"--ink", "--quiet", "--line", "--ahead", "--ontime", "--catchup"} {
		colour := regexp.MustCompile(name + `: ([^;]+);`)
		a, b := colour.FindStringSubmatch(light), colour.FindStringSubmatch(paper)
		if a == nil || b == nil || a[1] != b[1] {
			t.Errorf("%s is %q in style.css and %q for charts on paper", name, a, b)
		}
	}
}
