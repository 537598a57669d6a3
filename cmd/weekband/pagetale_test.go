package main

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/answer"
	"weekband/grid/curve"
	"weekband/grid/oracle"
	"weekband/grid/season"
	"weekband/render/wording"
)

var taleScripts = append(pageScripts("language", "roughly", "tale", "thisyear"), answerScripts...)

// told is a paragraph of a tale.
type told struct{ Kind, Text string }

// talesOf returns what the page tells of cases, as written by a function of
// the script that turns a token into text.
func talesOf(t *testing.T, l *wording.Language, cases []pageCase, token string) [][]told {
	t.Helper()
	driver := `
const { settings, choice, cases } = JSON.parse(require("fs").readFileSync(0, "utf8"));
const token = ` + token + `;
console.log(JSON.stringify(cases.map(c => {
  const tale = taleOf(c.window, answerOf(c.window, c.cell, c.year, c.readings), { index: { measures: "soil at 4 in" } }, c.today);
  return tale.map(part => ({ kind: part.kind, text: part.text.map(token).join("") }));
})));`
	in, err := json.Marshal(map[string]any{
		"settings": map[string]any{"names": l.Forms()}, "choice": map[string]string{"unit": "C", "order": l.Order.String()}, "cases": cases,
	})
	if err != nil {
		t.Fatal(err)
	}
	var tales [][]told
	if err := json.Unmarshal(oracle.Node(t, in, driver, taleScripts...), &tales); err != nil {
		t.Fatal(err)
	}
	return tales
}

// asCommand writes tokens as the command does: short dates, both units.
const asCommand = `part => {
  if (typeof part === "string") return part;
  if ("celsius" in part) return temperatureText(part.celsius, "F") + " (" + temperatureText(part.celsius, "C") + ")";
  if ("kelvin" in part) return differenceText(part.kelvin, "F") + " (" + differenceText(part.kelvin, "C") + ")";
  return tokenText({ ...part, full: false });
}`

// What the page tells in words stands in the command's answer word for word,
// but for where the reader stands today, the end of catching up and what the
// shares are reckoned for, which the command says in its own way.
func TestPageTellsAsTheCommand(t *testing.T) {
	for _, order := range wording.Orders {
		l, err := wording.Of("en", order)
		if err != nil {
			t.Fatal(err)
		}
		cases := inventedCases(t, 400)
		compared := map[string]int{}
		for i, tale := range talesOf(t, l, cases, asCommand) {
			c := &cases[i]
			var b strings.Builder
			answer.WriteAnswer(&b, l, "soil at 4 in", c.answer)
			if c.reply.Worth != nil {
				c.reply.Worth.Write(&b, l, &c.answer.Window, c.answer.Calendar)
			}
			if c.reply.Outlook != nil {
				c.reply.Outlook.Write(&b, l, c.answer.Window.Trigger)
			}
			for _, part := range tale {
				text, ok := sharedWords(c, l, part)
				if !ok {
					continue
				}
				compared[part.Kind]++
				if n := len(c.readings); n > 1 && part.Kind == "year" {
					compared["many"]++
					if r := c.reply.Outlook; r.State != "undated" && !strings.HasPrefix(text, fmt.Sprintf("The latest of your %d readings, on %s, is ", n, l.Date(r.Outlook.Latest))) {
						t.Errorf("case %d: of %d readings the page tells %q", i, n, text)
					}
				}
				if !strings.Contains(b.String(), text) {
					t.Errorf("case %d, %s: the command does not say %q:\n%s", i, part.Kind, text, &b)
				}
			}
		}
		for _, kind := range []string{"undated", "weeks", "typical", "year", "many", "second", "seeding", "sure"} {
			if compared[kind] < 20 {
				t.Errorf("%v: %d texts of the kind %s were compared", order, compared[kind], kind)
			}
		}
	}
}

// sharedWords returns what of a paragraph the command says too.
func sharedWords(c *pageCase, l *wording.Language, part told) (string, bool) {
	switch part.Kind {
	case "today", "end":
		return "", false
	case "year":
		return part.Text, !c.refused
	case "weeks":
		cal := c.answer.Calendar
		rest, ok := strings.CutPrefix(part.Text, "On time: "+l.Span(cal.OntimeFrom, cal.OntimeTo)+". ")
		if !ok {
			return part.Text + " (another span)", true
		}
		return rest, c.reply.Worth != nil && c.reply.Worth.Best > 0
	case "sure":
		text, _, _ := strings.Cut(part.Text, "Shares are reckoned")
		return strings.TrimSpace(strings.ReplaceAll(text, ". No", ".\n  No")), strings.TrimSpace(text) != ""
	}
	return part.Text, true
}

// The words of a spring window, its dates in full. Shares follow from the
// reply's numbers: worth is 0.49 as ahead of time begins and 0.67 at best.
func TestTaleOfASpringWindow(t *testing.T) {
	c := inventedCase(t, 329)
	c.Readings = []pageReading{{"2027-03-20", 5}}
	if off := 1 - c.reply.Worth.AheadFrom/c.reply.Worth.Best; off < 0.225 || off > 0.29 {
		t.Errorf("ahead of time costs %v, no quarter", off)
	}
	want := []told{
		{"weeks", "On time: 27 March to 23 April. Ahead of time is fine from 6 March and costs about a quarter of the strength; after 31 May about half the weeds are up, and treating still stops most of the rest."},
		{"end", "Catching up ends on 9 June: from then on an application would stop less than 25 % of the season's weeds."},
		{"today", "In a typical year today, 25 November, is between seasons; ahead of time begins on 6 March, in 14 weeks."},
		{"year", "Your reading on 20 March is 1.1 °C colder than usual: this year 12.8 °C is expected in the week of 23–29 April (in one year of ten before 11 April, in one of ten after 9 May), a day later than in a typical year."},
		{"typical", "Soil at 4 in reaches 12.8 °C in the week of 23–29 April in a typical year; in one year of ten before 9 April, in one of ten after 8 May."},
		{"sure", "The typical week is expected to be off by about 4 days. No station with soil thermometers is near: soil here is air and a general offset. Shares are reckoned for a residual that halves in 60 days, an illustration and no product; strength is what is left of it when the weeds come up."},
	}
	got := talesOf(t, daysFirst(t), []pageCase{c}, "tokenText")[0]
	if len(got) != len(want) {
		t.Fatalf("%d paragraphs, want %d: %v", len(got), len(want), got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("the page tells\n%v, want\n%v", got[i], want[i])
		}
	}
}

// Today is sorted by whole days, as the spans are written: 27 March to
// 23 April is on time from the first of these days to the last.
func TestTaleSaysWhereTodayIs(t *testing.T) {
	wants := map[int]string{ // by the day of the year
		64:  "Today, 5 March, is between seasons; ahead of time begins on 6 March, tomorrow.",
		59:  "Today, 28 February, is between seasons; ahead of time begins on 6 March, in 6 days.",
		65:  "Today, 6 March, is ahead of time; on time begins on 27 March, in 3 weeks.",
		85:  "Today, 26 March, is ahead of time; on time begins on 27 March, tomorrow.",
		86:  "Today, 27 March, is on time, until 23 April.",
		113: "Today, 23 April, is on time, until 23 April.",
		114: "Today, 24 April, is for catching up, until 8 June.",
		159: "Today, 8 June, is for catching up, until 8 June.",
		160: "Today, 9 June, is between seasons; ahead of time begins on 6 March, in 39 weeks.",
		1:   "Today, 1 January, is between seasons; ahead of time begins on 6 March, in 9 weeks.",
	}
	var cases []pageCase
	for today := range wants {
		cases = append(cases, inventedCase(t, today))
	}
	for i, tale := range talesOf(t, daysFirst(t), cases, "tokenText") {
		if want := (told{"today", wants[cases[i].Today]}); tale[2] != want {
			t.Errorf("%v, want %v", tale[2], want)
		}
	}
}

// What readings may make of a year, and what is wrong with some. Usual is
// 13 − 12·cos(2π(d − 24)/365) °C on day d: 22.9 at noon on 20 June (171.5), 13.9
// on 20 October (293.5), 25.0 on 24 July (205.5) and 3.2 on 28 February (59.5).
func TestTaleOfReadings(t *testing.T) {
	wants := map[pageReading]string{
		{"2027-06-20", 22}:  "Your reading on 20 June is 0.9 °C colder than usual: this year 12.8 °C is reached already.",
		{"2027-10-20", 12}:  "Your reading on 20 October is 1.9 °C colder than usual, and too far from the season to tell this year's week from it.",
		{"2027-07-24", 10}:  "Your reading on 24 July is 15.0 °C colder than usual: this year 12.8 °C is not expected to be reached.",
		{"2028-02-29", 25}:  "Your reading of 25 °C on 28 February is 21.8 °C warmer than usual, and cannot be meant: is it in the right unit, from the map's depth, and from this day? ",
		{"2027-03-20", 6.1}: "expected in the week of 23–29 April",
	}
	var cases []pageCase
	for r := range wants {
		c := inventedCase(t, 100)
		c.Readings = []pageReading{r}
		cases = append(cases, c)
	}
	for i, tale := range talesOf(t, daysFirst(t), cases, "tokenText") {
		want := wants[cases[i].Readings[0]]
		if tale[3].Kind != "year" || !strings.Contains(tale[3].Text, want) {
			t.Errorf("%v: %v, want %s", cases[i].Readings, tale[3], want)
		}
	}
}

// The page and the command round shares to the same words.
func TestRoughShares(t *testing.T) {
	for share, want := range map[float64]string{
		0: "hardly any of it", 0.024: "hardly any of it", 0.03: "about a twentieth of it", 0.08: "about a tenth of it", 0.17: "about a fifth of it",
		0.24: "about a quarter of it", 0.3: "about a third of it", 0.46: "about half it", 0.53: "about half it", 0.64: "about two thirds of it",
		0.7: "about two thirds of it", 0.72: "about three quarters of it", 0.79: "about four fifths of it", 0.94: "about nine tenths of it", 0.95: "nearly all it", 1: "nearly all it",
	} {
		if got := answer.RoughShare(share, "it"); got != want {
			t.Errorf("%v is %q, want %q", share, got, want)
		}
	}
	var want strings.Builder
	for i := range 1001 {
		fmt.Fprintln(&want, answer.RoughShare(float64(i)/1000, "it"), answer.RoughDays(float64(i)/40))
	}
	const driver = `for (let i = 0; i <= 1000; i++) console.log(roughShare(i / 1000, "it"), roughDays(i / 40));`
	if got := string(oracle.Node(t, nil, driver, pageScripts("roughly")...)); got != want.String() {
		t.Error("the page rounds shares otherwise")
	}
}

// What someone enters as a reading is checked before it is kept.
func TestPageChecksEnteredReadings(t *testing.T) {
	const driver = `
const choice = { unit: "F" };
for (const [date, soil] of [["2027-03-25", 7], ["2027-04-02", 7], ["2027-04-03", 7], ["2027-02-29", 7], ["", 7], ["2027-03-25", NaN], ["2027-03-25", 61], ["2027-03-25", -41]]) {
  console.log(readingProblem(date, soil, "2027-04-02"));
}`
	const want = `

That date is still to come. Enter the day on which you measured.
Enter the date of the reading, such as 2027-03-25.
Enter the date of the reading, such as 2027-03-25.
Enter the soil's temperature as a number, such as 46.4.
141.8 °F is no temperature of soil: is it in the right unit?
-41.8 °F is no temperature of soil: is it in the right unit?
`
	if got := string(oracle.Node(t, nil, driver, pageScripts("season", "language", "thisyear")...)); got != want {
		t.Errorf("the page says\n%s, want\n%s", got, want)
	}
}

func daysFirst(t *testing.T) *wording.Language {
	t.Helper()
	l, err := wording.Of("en", wording.DayFirst)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// inventedCase is the spring window in an invented year, far from stations.
func inventedCase(t *testing.T, today int) pageCase {
	t.Helper()
	c := pageCase{Window: inventedWindow(), Year: inventedYear(), Today: today}
	year := *c.Year
	c.answer = judged(windowOf(c.Window), &year, inventedDoubt{10, 5}, true)
	c.fill()
	if err := c.reply.Reckon(&year, &c.answer, nil); err != nil {
		t.Fatal(err)
	}
	return c
}

// inventedWindow is a spring window.
func inventedWindow() pageWindow {
	return pageWindow{
		ID: "spring", Title: "Spring", Threshold: 115.0 / 9, Starts: 10, HalfLife: 60, Q10: 2, Reference: 20, Ahead: 21, Floor: 0.25, Below: 0.5, Until: 0.9,
	}
}

// inventedYear is a cosine year whose coldest day is 24 January.
func inventedYear() *curve.Year {
	year := new(curve.Year)
	for i := range year {
		year[i] = 13 - 12*math.Cos(2*math.Pi*float64(i-23)/season.YearDays)
	}
	return year
}
