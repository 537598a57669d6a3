package calendar_test

import (
	"encoding/json"
	"os/exec"
	"strings"
	"testing"

	"weekband/grid/oracle"
	"weekband/grid/status"
)

// parsed is what an independent parser reads.
type parsed struct {
	Name, Version string
	Events        []struct {
		UID, Summary, Description, Begin, End, Stamp, Transparent, URL string
		Categories, Errors                                             []string
	}
}

// readBack runs the library icalendar of Python (Debian's python3-icalendar),
// an implementation of RFC 5545 of other makers.
func readBack(t *testing.T, text string) parsed {
	t.Helper()
	python := "python3 with icalendar"
	for _, p := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(p, "-c", "import icalendar").Run() == nil {
			python = p
			break
		}
	}
	oracle.Need(t, python)
	var p parsed
	if err := json.Unmarshal(oracle.Run(t, []byte(text), python, "testdata/events.py"), &p); err != nil {
		t.Fatal(err)
	}
	return p
}

// What was meant is what another maker's parser reads: names of any script and
// length, dates, the stamp. (That parser takes an escaped backslash before an n
// for a line break, so no name here has one.)
func TestAnotherParserReadsTheSame(t *testing.T) {
	for _, name := range []string{
		"High Vennet", `Carrow, the Lower; "east" \ side`, "Земля Мерроу", "谷の国", "e\u0301stre\u0301y", "🌱 Meadow",
		strings.Repeat("Vennaford-upon-the-Wold ", 9), strings.Repeat("谷", 70),
	} {
		r := vale(status.Calendar{AheadFrom: -30, OntimeFrom: -9.5, OntimeTo: 12.3, CatchupTo: 40})
		r.Name = strings.TrimSpace(name)
		p := readBack(t, written(t, edition(), r))
		if p.Version != "2.0" || p.Name != r.Name+": Soil warm-up, Vale" || len(p.Events) != 3 {
			t.Fatalf("%q: read %+v", r.Name, p)
		}
		e := p.Events[1]
		if e.Summary != "On time: Spring weeds ("+r.Name+")" || e.Begin != "2027-12-21" || e.End != "2028-01-12" || len(e.Errors) > 0 {
			t.Errorf("%q: read %+v", r.Name, e)
		}
		if e.Stamp != "2027-12-01T00:00:00+00:00" || e.Transparent != "TRANSPARENT" || e.URL != r.Page || len(e.Categories) != 1 || e.Categories[0] != "On time" {
			t.Errorf("%q: read %+v", r.Name, e)
		}
		if lines := strings.Split(e.Description, "\n"); len(lines) != 5 || lines[0] != "This is the stretch to aim for with a pre-emergent treatment." {
			t.Errorf("%q: description %q", r.Name, e.Description)
		}
	}
}

// Identifiers are the same when the calendar is written again, with other
// dates and names too, and differ between statuses, windows, regions, years.
func TestIdentifiersAreStable(t *testing.T) {
	used := map[string]bool{}
	for _, slug := range []string{"high-vennet", "carrow"} {
		for year := 2027; year <= 2028; year++ {
			e := edition()
			e.Year = year
			r := vale(status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 110}, status.Calendar{AheadFrom: 250, OntimeFrom: 271, OntimeTo: 292, CatchupTo: 310})
			r.Slug = slug
			first := values(written(t, e, r), "UID")
			r.Name, r.Rows[0].Calendar.OntimeFrom, r.Rows[0].Window.Title = "Renamed", 75, "Renamed"
			e.Title = "Renamed"
			if second := values(written(t, e, r), "UID"); strings.Join(first, " ") != strings.Join(second, " ") {
				t.Errorf("identifiers %q became %q", first, second)
			}
			for _, id := range first {
				if used[id] {
					t.Errorf("%s stands twice", id)
				}
				used[id] = true
			}
		}
	}
	if len(used) != 2*2*2*3 {
		t.Errorf("%d identifiers", len(used))
	}
}
