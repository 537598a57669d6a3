package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/output"
)

// eventDays returns the begin and end of every event of a calendar by window
// and status.
func eventDays(text string) map[string][2]string {
	days := map[string][2]string{}
	for event := range strings.SplitSeq(strings.ReplaceAll(text, "\r\n ", ""), "BEGIN:VEVENT") {
		value := func(name string) string {
			_, rest, _ := strings.Cut(event, "\r\n"+name+":")
			v, _, _ := strings.Cut(rest, "\r\n")
			return v
		}
		if id := strings.Split(value("UID"), "."); len(id) > 2 {
			days[id[1]+" "+id[2]] = [2]string{value("DTSTART;VALUE=DATE"), value("DTEND;VALUE=DATE")}
		}
	}
	return days
}

// The demo's calendars have the days of its table, in the year of the edition
// or next to it, and a file for every region of which at least half has a week.
// Pages offer the files that are there.
func TestCalendarsAgreeWithTheTable(t *testing.T) {
	out := demoEdition(t)
	wanted, rows, little := map[string]bool{}, 0, 0
	for _, row := range regionTable(t, out) {
		name := output.CalendarFile(output.Slug(row["region"]))
		dated := 1.0
		for _, without := range []string{"never_share", "always_share", "nodata_share", "flat_share"} {
			dated -= number(t, row[without])
		}
		if dated < 0.495 {
			little++
			if text, err := os.ReadFile(filepath.Join(out, filepath.FromSlash(name))); err == nil && strings.Contains(string(text), "2027."+row["window"]+".") {
				t.Errorf("%s, %s: events for %.0f %% of the ground", row["region"], row["window"], 100*dated)
			}
			continue
		}
		wanted[filepath.Base(name)] = true
		text, err := os.ReadFile(filepath.Join(out, filepath.FromSlash(name)))
		if err != nil {
			t.Error(err)
			continue
		}
		rows++
		days := eventDays(string(text))
		for status, columns := range map[string][2]string{
			"ahead": {"ahead_from", "ontime_from"}, "ontime": {"ontime_from", "ontime_to"}, "catchup": {"ontime_to", "catchup_to"},
		} {
			got := days[row["window"]+" "+status]
			for i, column := range columns {
				if want := strings.ReplaceAll(row[column], "-", ""); len(got[i]) != 8 || got[i][4:] != want {
					t.Errorf("%s, %s, %s: %s is %s, in the table %s", row["region"], row["window"], status, column, got[i], row[column])
				}
			}
			if status == "ontime" && !strings.HasPrefix(got[1], "2027") {
				t.Errorf("%s, %s: the crossing is %s, not in the edition's year", row["region"], row["window"], got[1])
			}
		}
	}
	made, err := os.ReadDir(filepath.Join(out, "calendars"))
	if err != nil || len(made) != len(wanted) || len(wanted) == 18 || rows < 20 || little < 3 {
		t.Errorf("%d calendars of %d regions with weeks, %d rows with and %d without, %v", len(made), len(wanted), rows, little, err)
	}
	for _, row := range regionTable(t, out) {
		file := output.CalendarFile(output.Slug(row["region"]))
		page, err := os.ReadFile(filepath.Join(out, "regions", output.Slug(row["region"])+".html"))
		if offered := strings.Contains(string(page), "../"+file); err != nil || offered != wanted[filepath.Base(file)] {
			t.Errorf("%s: the page offers a calendar: %v, and there is one: %v (%v)", row["region"], offered, !offered, err)
		}
	}
}
