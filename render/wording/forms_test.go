package wording_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"weekband/grid/oracle"
	"weekband/grid/season"
	"weekband/grid/units"
	"weekband/render/wording"
)

const dateScripts = "../site/script/"

// The page writes every date, week and span of days of a year as the language
// does, in both orders; days have halves, and spans go over New Year.
func TestPageWritesTheSameDates(t *testing.T) {
	for _, tag := range wording.Tags() {
		for _, order := range wording.Orders {
			l, err := wording.Of(tag, order)
			if err != nil {
				t.Fatal(err)
			}
			var want strings.Builder
			for from := season.Day(1); from < 366; from++ {
				fmt.Fprintln(&want, l.Date(from+0.5))
				for days := season.Day(0.5); days <= 365; days++ {
					fmt.Fprintln(&want, l.Span(from-365, from-365+days))
				}
			}
			for w := season.Week(1); w <= season.Weeks; w++ {
				fmt.Fprintln(&want, l.Week(w))
			}
			const driver = `
const [settings, choice] = JSON.parse(require("fs").readFileSync(0, "utf8")), lines = [];
for (let from = 1; from < 366; from++) {
  lines.push(dateText(from + 0.5));
  for (let days = 0.5; days <= 365; days++) lines.push(spanText(from - 365, from - 365 + days));
}
for (let week = 1; week <= 52; week++) lines.push(weekText(week));
process.stdout.write(lines.join("\n") + "\n");`
			in, err := json.Marshal([]any{map[string]any{"names": l.Forms()}, map[string]string{"order": order.String(), "unit": "F"}})
			if err != nil {
				t.Fatal(err)
			}
			got := string(oracle.Node(t, in, driver, dateScripts+"season.js", dateScripts+"language.js"))
			sameLines(t, tag+" "+order.String(), got, want.String())
		}
	}
}

// sameLines compares two texts line by line.
func sameLines(t *testing.T, what, got, want string) {
	t.Helper()
	a, b := strings.Split(got, "\n"), strings.Split(want, "\n")
	if len(a) != len(b) {
		t.Fatalf("%s: %d lines, want %d", what, len(a), len(b))
	}
	wrong := 0
	for i := range a {
		if a[i] != b[i] && wrong < 5 {
			t.Errorf("%s, line %d: %q, want %q", what, i+1, a[i], b[i])
			wrong++
		}
	}
}

// The page writes temperatures as package units does, and reads them back.
func TestPageWritesTheSameTemperatures(t *testing.T) {
	var want strings.Builder
	for i := range 1201 {
		c := units.Celsius(float64(i-500) / 16)
		f, celsius, _ := strings.Cut(c.Both(), " (")
		fmt.Fprintf(&want, "%s\n%s\n", f, strings.TrimSuffix(celsius, ")"))
		back, err := units.Parse(f)
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&want, "%.9f\n", float64(back))
	}
	const driver = `
const settings = {}, choice = { unit: "C" }, lines = [];
for (let i = 0; i < 1201; i++) {
  const c = (i - 500) / 16, f = temperatureText(c, "F");
  lines.push(f, temperatureText(c), temperatureFrom(f, "C").toFixed(9));
}
process.stdout.write(lines.join("\n").replaceAll("-0.000000000", "0.000000000") + "\n");`
	got := string(oracle.Node(t, nil, driver, dateScripts+"season.js", dateScripts+"language.js"))
	sameLines(t, "temperatures", got, strings.ReplaceAll(want.String(), "-0.000000000", "0.000000000"))
}

// What readers type is read with a comma or a point and with either minus; a
// unit of its own counts.
func TestPageReadsTemperatures(t *testing.T) {
	const driver = `
const settings = {}, choice = { unit: "F" };
console.log(["50", " 50 ", "10,0 °C", "10 c", "50.0F", "−4 °F", "-20C", "5O", "", "50 K", "1e3", "50 60"].map(text => String(temperatureFrom(text, "F"))).join(" "));`
	got := strings.TrimSpace(string(oracle.Node(t, nil, driver, dateScripts+"season.js", dateScripts+"language.js")))
	if want := "10 10 10 10 10 -20 -20 NaN NaN NaN NaN NaN"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
