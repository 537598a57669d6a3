package answer

import (
	"strings"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/outlook"
	"weekband/grid/season"
	"weekband/grid/units"
	"weekband/render/lookup"
	"weekband/render/wording"
)

// What readings make of a year, in a sentence. 100 is 10 April, 3 K are 5.4 °F.
func TestOutlookSentences(t *testing.T) {
	typical := crossing.Crossing{Day: 100}
	for want, c := range map[string]struct {
		o   outlook.Outlook
		far bool
	}{
		"Your reading on Mar 22 is 5.4 °F (3.0 °C) warmer than usual: this year 55 °F (12.8 °C) is expected in the week of Apr 2–8 (in one year of ten before Mar 31, in one of ten after Apr 10), 5 days earlier than in a typical year.": {
			outlook.Outlook{State: outlook.Expected, Readings: 1, Latest: 81, Departure: 3, Typical: typical, Day: 95, Early: 90, Late: 100}, false},
		"The latest of your 2 readings, on Mar 22, is 5.4 °F (3.0 °C) colder than usual: this year 55 °F (12.8 °C) is expected in the week of Apr 9–15 (in one year of ten before Apr 5, in one of ten after Apr 15), a day later than in a typical year.": {
			outlook.Outlook{State: outlook.Expected, Readings: 2, Latest: 81, Departure: -3, Typical: typical, Day: 101, Early: 95, Late: 105}, false},
		"Your reading on Mar 22 is 0.0 °F (0.0 °C) warmer than usual: this year 55 °F (12.8 °C) is expected in the week of Apr 9–15 (in one year of ten before Apr 5, in one of ten after Apr 15), as in a typical year.": {
			outlook.Outlook{State: outlook.Expected, Readings: 1, Latest: 81, Typical: typical, Day: 100.4, Early: 95, Late: 105}, false},
		"Your reading on Jan 1 is 5.4 °F (3.0 °C) warmer than usual, and too far from the season to tell this year's week from it.": {
			outlook.Outlook{State: outlook.Expected, Readings: 1, Latest: 1, Departure: 3, Typical: typical, Day: 100}, true},
		"Your reading on May 1 is 5.4 °F (3.0 °C) warmer than usual: this year 55 °F (12.8 °C) is reached already.": {
			outlook.Outlook{State: outlook.Reached, Readings: 1, Latest: 121, Departure: 3, Typical: typical}, false},
		"Your reading on Jul 1 is 5.4 °F (3.0 °C) colder than usual: this year 55 °F (12.8 °C) is not expected to be reached.": {
			outlook.Outlook{State: outlook.Unlikely, Readings: 1, Latest: 182, Departure: -3, Typical: typical}, false},
		"Your reading cannot tell this year's week: no week stands out here.":  {outlook.Outlook{State: outlook.Undated, Readings: 1}, false},
		"Your readings cannot tell this year's week: no week stands out here.": {outlook.Outlook{State: outlook.Undated, Readings: 3}, false},
	} {
		r := OutlookReply{Outlook: c.o, far: c.far}
		if got := strings.ReplaceAll(r.sentence(wording.English(), units.F.Celsius(55).Both()), "\u00a0", " "); got != want {
			t.Errorf("%q, want\n%q", got, want)
		}
	}
}

// Why there is no day, and that stations are far, in words.
func TestUndatedSentences(t *testing.T) {
	for want, c := range map[string]struct {
		reason    crossing.Reason
		direction crossing.Direction
	}{
		"Soil never reaches 55 °F (12.8 °C) in a typical year here.":                              {crossing.Never, crossing.Warming},
		"Soil is never as warm as 55 °F (12.8 °C) in a typical year here.":                        {crossing.Never, crossing.Cooling},
		"Soil stays above 55 °F (12.8 °C) all through a typical year here: no week stands out.":   {crossing.Always, crossing.Warming},
		"Soil hovers near 55 °F (12.8 °C) for weeks in a typical year here, so no week can be to": {crossing.Flat, crossing.Warming},
		"No data here: the point lies off the land the normals cover.":                            {crossing.NoData, crossing.Warming},
	} {
		a := lookup.Answer{Reason: c.reason}
		a.Window.Trigger = crossing.Trigger{Level: units.F.Celsius(55), Direction: c.direction}
		var b strings.Builder
		writeWhen(&b, wording.English(), "soil", a)
		if got := strings.ReplaceAll(b.String(), "\u00a0", " "); !strings.HasPrefix(got, "  "+want) {
			t.Errorf("%v %v: %q, want %q", c.reason, c.direction, got, want)
		}
	}
	a := lookup.Answer{Reason: crossing.Dated, Day: season.Day(100), Beyond: true}
	var b strings.Builder
	writeWhen(&b, wording.English(), "soil", a)
	if !strings.Contains(b.String(), "No station with soil thermometers is near") {
		t.Errorf("beyond stations: %q", b.String())
	}
}
