package season_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"weekband/grid/oracle"
	"weekband/grid/season"
)

// The page counts days, weeks and dates as this package does, from a year
// before to a year after, and takes 29 February for the day before.
func TestPageCountsTheSameDays(t *testing.T) {
	const driver = `
const lines = [], write = (...values) => lines.push(values.map(String).join(" "));
for (let quarter = -4 * 365; quarter < 8 * 366; quarter++) {
  const day = quarter / 4, date = monthDay(day);
  write(wrapDay(day), weekOfDay(day), isoDay(day), date.month, date.day, daysTo(day, 100.5), daysTo(100.5, day));
}
for (let week = 1; week <= 52; week++) write(weekSpan(week).from, weekSpan(week).to);
for (let at = Date.UTC(2027, 0, 1); at < Date.UTC(2029, 0, 1); at += 86400e3) {
  const date = new Date(at).toISOString().slice(0, 10), here = new Date(date + "T23:59:00");
  write(date, dayOfDate(date), todayOfYear(here), isoToday(here));
}
for (const text of ["2027-02-29", "2027-13-01", "2027-1-1", "yesterday", "", "2027-04-31"]) write(isDate(text));
console.log(lines.join("\n"));`
	var want strings.Builder
	for quarter := -4 * 365; quarter < 8*366; quarter++ {
		d := season.Day(quarter) / 4
		m, n := d.MonthDay()
		fmt.Fprintln(&want, float64(d.In()), int(d.Week()), d.ISO(), int(m), n, 0+d.DaysTo(100.5), 0+season.Day(100.5).DaysTo(d)) // no "-0"
	}
	for w := season.Week(1); w <= season.Weeks; w++ {
		fmt.Fprintln(&want, float64(w.Begin()), float64(w.End()))
	}
	for at := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC); at.Year() < 2029; at = at.AddDate(0, 0, 1) {
		d := float64(season.OfDate(at.Month(), at.Day()))
		fmt.Fprintln(&want, at.Format(time.DateOnly), d, d, at.Format(time.DateOnly))
	}
	want.WriteString(strings.Repeat("false\n", 6))
	got := strings.Split(string(oracle.Node(t, nil, driver, "../../render/site/script/season.js")), "\n")
	for i, line := range strings.Split(want.String(), "\n") {
		if i >= len(got) || got[i] != line {
			t.Fatalf("line %d: the page has %q, want %q", i+1, got[min(i, len(got)-1)], line)
		}
	}
}
