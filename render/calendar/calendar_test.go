package calendar_test

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"weekband/grid/crossing"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/worth"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/calendar"
)

var spring = status.Window{ID: "spring", Title: "Spring weeds", Trigger: crossing.Trigger{Level: units.Celsius(115.0 / 9)}}

func edition() calendar.Edition {
	return calendar.Edition{
		Title: "Soil warm-up, Vale", Year: 2028, Published: time.Date(2027, time.December, 1, 0, 0, 0, 0, time.UTC),
		Measures: "soil at 4 in (10 cm)", Address: "https://soil.example/", Domain: "soil.example",
	}
}

// vale is a region under windows of the given calendars.
func vale(calendars ...status.Calendar) calendar.Region {
	r := calendar.Region{Slug: "high-vennet", Name: "High Vennet", Page: "https://soil.example/regions/high-vennet.html"}
	for i, c := range calendars {
		w := spring
		w.ID = fmt.Sprintf("spring-%d", i)
		r.Rows = append(r.Rows, report.Row{Window: &w, ID: "V", Name: r.Name, Dated: true, Median: c.OntimeTo, Calendar: c, Doubt: 10, Shares: zonal.Summary{DatedShare: 1}})
	}
	return r
}

func written(t testing.TB, e calendar.Edition, r calendar.Region) string {
	t.Helper()
	var b bytes.Buffer
	if err := e.Write(&b, r); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// values returns the values of a property in the order of the file, unfolded
// as RFC 5545, 3.1 says: a line break and the white space after it go.
func values(text, property string) []string {
	var list []string
	for line := range strings.SplitSeq(strings.ReplaceAll(text, "\r\n ", ""), "\r\n") {
		name, value, _ := strings.Cut(line, ":")
		if name == property {
			list = append(list, value)
		}
	}
	return list
}

func ExampleEdition_Write() {
	e := edition()
	r := vale(status.Calendar{AheadFrom: 50.2, OntimeFrom: 71.2, OntimeTo: 92.6, CatchupTo: 110.9})
	var b bytes.Buffer
	if err := e.Write(&b, r); err != nil {
		fmt.Println(err)
		return
	}
	text := b.String()
	for i, summary := range values(text, "SUMMARY") {
		fmt.Println(summary, values(text, "DTSTART;VALUE=DATE")[i], values(text, "DTEND;VALUE=DATE")[i])
	}
	fmt.Println(values(text, "UID")[1])
	// Output:
	// Ahead of time: Spring weeds (High Vennet) 20280219 20280312
	// On time: Spring weeds (High Vennet) 20280312 20280402
	// Catching up: Spring weeds (High Vennet) 20280402 20280420
	// 2028.spring-0.ontime.high-vennet@soil.example
}

// The crossing lies in the edition's year, whatever year the days are counted
// from; what comes before it may begin in the year before, what comes after it
// may end in the year after. Worked out by hand on a calendar: 2027 has no
// 29 February, 2028 has one.
func TestTrueYears(t *testing.T) {
	for _, c := range []struct {
		what     string
		year     int
		calendar status.Calendar
		want     string
	}{
		{"over New Year", 2027, status.Calendar{AheadFrom: -30, OntimeFrom: -9.5, OntimeTo: 12.3, CatchupTo: 40},
			"20261201-20261221 20261221-20270112 20270112-20270209"},
		{"counted a year later", 2027, status.Calendar{AheadFrom: 335, OntimeFrom: 355.5, OntimeTo: 377.3, CatchupTo: 405},
			"20261201-20261221 20261221-20270112 20270112-20270209"},
		{"counted a year earlier", 2027, status.Calendar{AheadFrom: -395, OntimeFrom: -374.5, OntimeTo: -352.7, CatchupTo: -325},
			"20261201-20261221 20261221-20270112 20270112-20270209"},
		{"into the next year", 2027, status.Calendar{AheadFrom: 320, OntimeFrom: 340, OntimeTo: 364.9, CatchupTo: 380},
			"20271116-20271206 20271206-20271230 20271230-20280115"},
		{"crossing at midnight of New Year", 2027, status.Calendar{AheadFrom: 320, OntimeFrom: 340, OntimeTo: 366, CatchupTo: 380},
			"20261116-20261206 20261206-20270101 20270101-20270115"},
		{"leap day goes with the day before it", 2028, status.Calendar{AheadFrom: 40, OntimeFrom: 50, OntimeTo: 60, CatchupTo: 70},
			"20280209-20280219 20280219-20280301 20280301-20280311"},
		{"no leap day", 2027, status.Calendar{AheadFrom: 40, OntimeFrom: 50, OntimeTo: 60, CatchupTo: 70},
			"20270209-20270219 20270219-20270301 20270301-20270311"},
		{"a hair before New Year", 2027, status.Calendar{AheadFrom: 0.9999999999999999, OntimeFrom: 20, OntimeTo: 30, CatchupTo: 40},
			"20261231-20270120 20270120-20270130 20270130-20270209"},
		{"short and empty", 2027, status.Calendar{AheadFrom: 20, OntimeFrom: 20, OntimeTo: 20.4, CatchupTo: 20.4}, "20270120-20270121"},
	} {
		e := edition()
		e.Year = c.year
		text := written(t, e, vale(c.calendar))
		var got []string
		for i, begin := range values(text, "DTSTART;VALUE=DATE") {
			got = append(got, begin+"-"+values(text, "DTEND;VALUE=DATE")[i])
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%s: %v, want %s", c.what, got, c.want)
		}
	}
}

// RFC 5545, 3.1: lines end in CR LF and have at most 75 octets without it;
// folding never splits a character here. 3.3.11: commas, semicolons,
// backslashes and line breaks of texts are escaped.
func TestLinesAndEscapes(t *testing.T) {
	r := vale(status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110})
	r.Name = "Östermark, die Höhen; \\ \"Alte\" Мерроу \r\nEND:VCALENDAR\x00 谷の国谷の国谷の国谷の国谷の国谷の国谷の国谷の国谷の国谷の国 \xff"
	text := written(t, edition(), r)
	if !strings.HasSuffix(text, "END:VCALENDAR\r\n") || strings.Count(text, "\nEND:VCALENDAR") != 1 {
		t.Errorf("a name ended the calendar:\n%s", text)
	}
	for line := range strings.SplitSeq(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		if len(line) > 75 || !utf8.ValidString(line) || strings.ContainsAny(line, "\r\n\x00") {
			t.Errorf("line of %d octets: %q", len(line), line)
		}
	}
	const want = `Ahead of time: Spring weeds (Östermark\, die Höhen\; \\ "Alte" Мерроу  \nEND:VCALENDAR  ` + "谷の国谷の国谷の国谷の国谷の国谷の国谷の国谷の国谷の国谷の国 \uFFFD)"
	if got := values(text, "SUMMARY")[0]; got != want {
		t.Errorf("summary\n%s, want\n%s", got, want)
	}
}

// Every event says that it is typical and no forecast, and heeds the label.
func TestEventsCarryCautions(t *testing.T) {
	text := written(t, edition(), vale(status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110}))
	list := values(text, "DESCRIPTION")
	if len(list) != 4 {
		t.Fatalf("%d descriptions, want that of the calendar and of three events", len(list))
	}
	for _, d := range list {
		for _, want := range []string{"not a forecast", "label", "ocal rules", "licensed", "water", "reseeding interval"} {
			if !strings.Contains(d, want) {
				t.Errorf("%q lacks %q", d, want)
			}
		}
	}
	if d := list[1]; !strings.Contains(d, `In a typical year soil at 4 in (10 cm) warms to 55 °F (12.8 °C) here in the week of Apr 2–8.`) || !strings.Contains(d, "before Mar 20\\, in one of ten after Apr 14") {
		t.Errorf("ahead of time is described as %q", d)
	}
}

// Where only some of the ground has a week the events say so.
func TestPartOfARegion(t *testing.T) {
	r := vale(status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110})
	const want = "These weeks hold for 62% of the region's ground"
	if strings.Contains(values(written(t, edition(), r), "DESCRIPTION")[1], "weeks hold for") {
		t.Error("all of the region has a week, yet a share is told")
	}
	r.Rows[0].Shares = zonal.Summary{DatedShare: 0.62, NeverShare: 0.3, NoDataShare: 0.08}
	if d := values(written(t, edition(), r), "DESCRIPTION")[1]; !strings.Contains(d, want) {
		t.Errorf("%q lacks %q", d, want)
	}
}

func TestStampIsTheDayItGoesOut(t *testing.T) {
	e := edition()
	r := vale(status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110})
	if got := values(written(t, e, r), "DTSTAMP")[2]; got != "20271201T000000Z" {
		t.Errorf("stamped %s", got)
	}
	e.Published = time.Time{}
	if got := values(written(t, e, r), "DTSTAMP")[2]; got != "20280101T000000Z" {
		t.Errorf("stamped %s without a day", got)
	}
}

// The address goes to the edition's pages where a region has none, and nowhere
// without one.
func TestAddresses(t *testing.T) {
	e := edition()
	r := vale(status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110})
	if got := values(written(t, e, r), "URL"); len(got) != 4 || got[3] != r.Page {
		t.Errorf("addresses %q", got)
	}
	if r.Page = ""; values(written(t, e, r), "URL")[3] != "https://soil.example/" {
		t.Error("no address of the edition's pages")
	}
	if e.Address = ""; values(written(t, e, r), "URL") != nil {
		t.Error("an address without one")
	}
}

// Weeks of less than half of a region's ground are no events of the region.
func TestWeeksOfLittleGroundAreNoEvents(t *testing.T) {
	c := status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110}
	r := vale(c, c)
	r.Rows[0].Shares = zonal.Summary{DatedShare: 0.04, NeverShare: 0.46, FlatShare: 0.45, NoDataShare: 0.05}
	text := written(t, edition(), r)
	if n := strings.Count(text, "BEGIN:VEVENT"); n != 3 || strings.Contains(text, ".spring-0.") {
		t.Errorf("%d events, want the 3 of the other window:\n%s", n, text)
	}
	if calendar.HasEvents(r.Rows[:1]) || !calendar.HasEvents(r.Rows) {
		t.Error("a calendar for 4 % of the ground, or none for the other window")
	}
}

// Ahead of time tells what it costs: nothing promises strength that is lost.
func TestAheadOfTimeTellsWhatItCosts(t *testing.T) {
	r := vale(status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110})
	r.Rows[0].Value = &status.Value{Costs: worth.Costs{AheadFrom: worth.Cost{Worth: 0.28}, Best: worth.Cost{Worth: 0.68}}}
	list := values(written(t, edition(), r), "DESCRIPTION")
	if d := list[1]; strings.Contains(d, "much of") || !strings.Contains(d, "would still stop 28% of the season's weeds\\, on the best day 68%") {
		t.Errorf("ahead of time is described as %q", d)
	}
	for _, d := range list[2:] {
		if strings.Contains(d, "best day") {
			t.Errorf("the costs of ahead of time stand in %q", d)
		}
	}
}

func TestUndatedWindowsHaveNoEvents(t *testing.T) {
	r := vale(status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110}, status.Calendar{})
	r.Rows[1].Dated = false
	if n := strings.Count(written(t, edition(), r), "BEGIN:VEVENT"); n != 3 || !calendar.HasEvents(r.Rows) {
		t.Errorf("%d events, want 3", n)
	}
	if calendar.HasEvents(r.Rows[1:]) || calendar.HasEvents(nil) {
		t.Error("events without a dated row")
	}
}

func BenchmarkWrite(b *testing.B) {
	e := edition()
	c := status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110}
	r := vale(c, c)
	for b.Loop() {
		if err := e.Write(io.Discard, r); err != nil {
			b.Fatal(err)
		}
	}
}
