package chart

import (
	"fmt"
	"strings"
	"testing"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/regions/report"
	"weekband/regions/zonal"
)

// Every square of the map is the status of the week in the calendar.
func TestStatusesAreThoseOfTheCalendars(t *testing.T) {
	rows := append(some(5), report.Row{Window: &spring, Name: "Nowhere"})
	c, ok := Statuses(nil, rows)
	if !ok {
		t.Fatal("no chart")
	}
	o := decoded(t, c)
	squares := 0
	for i, s := range o.Series {
		for _, d := range s.Data {
			week := season.Week(o.XAxis[0].Data[int(d.Value[0])].(float64))
			name := o.YAxis[0].Data[int(d.Value[1])].(string)
			for _, r := range rows {
				if r.Name == name && r.Calendar.Of(week) != status.All[i] {
					t.Errorf("%s in week %d is %v, the calendar has %v", name, week, status.All[i], r.Calendar.Of(week))
				}
			}
			squares++
		}
	}
	if squares != 5*season.Weeks {
		t.Errorf("%d squares, want 5 regions of 52", squares)
	}
	if first, last := o.YAxis[0].Data[0], o.YAxis[0].Data[4]; first != "Vale 0" || last != "Vale 4" {
		t.Errorf("from %v to %v, want Vale 0 first and Vale 4 last", first, last)
	}
	for _, want := range []string{"5 regions", "Earliest: Vale 0, on time", "Latest: Vale 4", "Left out: 1 region in"} {
		if !strings.Contains(c.Alt, want) {
			t.Errorf("%q lacks %q", c.Alt, want)
		}
	}
	if len(c.Table.Rows) != 5 || c.Table.Rows[0][2].Days == nil {
		t.Errorf("table %+v", c.Table)
	}
}

// A region is neither the earliest nor the latest, nor a row, by the weeks of
// less than half of its ground; the words count it.
func TestRegionsWithWeeksOnLittleGroundAreLeftOut(t *testing.T) {
	early, late := region("Skarrow", -40), region("High Vennet", 90)
	early.Shares = zonal.Summary{DatedShare: 0.04, NeverShare: 0.96}
	late.Shares = zonal.Summary{DatedShare: 0.49, FlatShare: 0.51}
	rows := append([]report.Row{early, late}, some(3)...)
	c, ok := Statuses(nil, rows)
	if !ok || len(c.Table.Rows) != 3 || len(decoded(t, c).YAxis[0].Data) != 3 {
		t.Fatalf("%v, table %+v", ok, c.Table)
	}
	for _, want := range []string{"3 regions, from", "Earliest: Vale 0", "Latest: Vale 2", "Left out: 2 regions in which less than half of the ground has such a week."} {
		if !strings.Contains(c.Alt, want) {
			t.Errorf("%q lacks %q", c.Alt, want)
		}
	}
	if _, ok := Statuses(nil, rows[:2]); ok {
		t.Error("a chart of regions of which most ground has no week")
	}
}

func TestManyRegionsAreSpreadEvenly(t *testing.T) {
	c, _ := Statuses(nil, some(302))
	names := decoded(t, c).YAxis[0].Data
	if len(names) != MostRegions || names[0] != "Vale 0" || names[MostRegions-1] != "Vale 301" {
		t.Fatalf("%d regions from %v to %v", len(names), names[0], names[len(names)-1])
	}
	if !strings.Contains(c.Alt, "60 of 302 regions, spread evenly") {
		t.Errorf("the words hide that regions are left out: %q", c.Alt)
	}
	last := -1
	for i, name := range names {
		var k int
		fmt.Sscanf(name.(string), "Vale %d", &k)
		if step := k - last; i > 0 && (step < 5 || step > 6) {
			t.Errorf("a step of %d regions before %v, want 5 or 6", step, name)
		}
		last = k
	}
}

// A year that would tear a stretch begins in the quiet before it.
func TestYearBeginsInTheQuiet(t *testing.T) {
	for _, c := range []struct {
		name       string
		lo, hi     season.Day
		start      season.Day
		longestLag float64
	}{
		{"within the year", 30, 300, 1, 0},
		{"to its very end", 1, 366, 1, 0},
		{"before New Year", -20, 140, -49, 6},
		{"past New Year", 250, 400, 218, 6},
		{"hardly a quiet day", -20, 344, -21, 7},
	} {
		start := yearStart(c.lo, c.hi)
		if start != c.start {
			t.Errorf("%s: the year begins on %v, want %v", c.name, start, c.start)
		}
		if start.In() != start.In().Week().Begin() || start > c.lo || float64(c.hi-start) > season.YearDays+c.longestLag {
			t.Errorf("%s: a year from %v tears %v to %v", c.name, start, c.lo, c.hi)
		}
	}
}

func ExampleStatuses() {
	rows := []report.Row{region("Sellow Vale", 0), region("High Vennet", 40)}
	c, _ := Statuses(nil, rows)
	fmt.Println(strings.ReplaceAll(c.Alt, "\u00a0", " "))
	for _, row := range c.Table.Rows {
		fmt.Println(row[0].Text+":", row[2].Text)
	}
	// Output:
	// 2 regions, from the earliest to the latest. Earliest: Sellow Vale, on time Mar 15–Apr 13. Latest: High Vennet, on time Apr 24–May 23.
	// Sellow Vale: Mar 15–Apr 13
	// High Vennet: Apr 24–May 23
}
