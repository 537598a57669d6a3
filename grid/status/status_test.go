package status_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/grid/worth"
)

func year(mean, a float64) *curve.Year {
	var y curve.Year
	for i := range y {
		y[i] = mean - a*math.Cos(2*math.Pi*(float64(i)-23)/season.YearDays)
	}
	return &y
}

var spring = status.Window{
	ID:        "summer-annuals",
	Trigger:   crossing.Trigger{Level: 115.0 / 9, Direction: crossing.Warming}, // 55 °F
	Starts:    crossing.Trigger{Level: 10, Direction: crossing.Warming},        // 50 °F
	Treatment: worth.Usual(worth.Medium), AheadDays: status.DefaultAheadDays, WorthFloor: status.DefaultWorthFloor,
}

// doubt is a fixed doubt in days.
type doubt struct{ spread, error float64 }

func (d doubt) Spread(float64, season.Day) float64 { return d.spread }
func (d doubt) Error(float64, season.Day) float64  { return d.error }

var usual = doubt{spread: spread.Default}

func ExampleWindow_Judge() {
	var s worth.Season
	p := spring.Judge(status.Daily{year(11.5, 13.4), &s}, usual)
	c := p.Calendar
	fmt.Println("ahead from", c.AheadFrom, "– on time", c.OntimeFrom, "to", c.OntimeTo, "– catching up to", c.CatchupTo)
	// Output: ahead from Mar 14 – on time Apr 4 to Apr 30 – catching up to Jun 14
}

func TestCalendarBorders(t *testing.T) {
	c := status.Calendar{AheadFrom: 50, OntimeFrom: 71, OntimeTo: 92, CatchupTo: 120}
	for _, k := range []struct {
		day  season.Day
		want status.Status
	}{
		{49.9, status.Resting}, {50, status.Ahead}, {70.9, status.Ahead}, {71, status.OnTime},
		{91.9, status.OnTime}, {92, status.CatchingUp}, {119.9, status.CatchingUp}, {120, status.Past},
		{300, status.Resting}, {1, status.Resting}, {260, status.Past},
	} {
		if got := c.At(k.day); got != k.want {
			t.Errorf("day %v is %v, want %v", k.day, got, k.want)
		}
	}
}

func TestCalendarOverNewYear(t *testing.T) {
	c := status.Calendar{AheadFrom: -10, OntimeFrom: 5, OntimeTo: 30, CatchupTo: 60}
	if got := c.At(360); got != status.Ahead {
		t.Errorf("27 December is %v, want ahead of time", got)
	}
	if got := c.Of(1); got != status.Ahead {
		t.Errorf("the first week is %v, want ahead of time: its middle is day 4.5", got)
	}
}

func TestZeroCalendarIsPast(t *testing.T) {
	var c status.Calendar
	for w := season.Week(1); w <= season.Weeks; w++ {
		if got := c.Of(w); got == status.OnTime || got == status.Ahead || got == status.CatchingUp {
			t.Fatalf("week %v of no calendar is %v", w, got)
		}
	}
}

// What is known of the typical day counts like the spread: 3 and 4 days come
// to 5, and on time begins 1.2816·5 days before the typical day of Starts.
func TestEarlyYearsCountBothDoubts(t *testing.T) {
	var s worth.Season
	y := year(11.5, 13.4)
	p := spring.Judge(status.Daily{y, &s}, doubt{spread: 3, error: 4})
	want := crossing.Find(y, spring.Starts).Day - 1.2815515655446*5
	if got := p.Calendar.OntimeFrom; math.Abs(float64(got-want)) > 1e-9 || p.Spread != 3 || p.Error != 4 {
		t.Errorf("on time begins on %v, want %v; %+v", float64(got), float64(want), p)
	}
}

// A crossing too slow to tell a day has no calendar either.
func TestFlatHasNoCalendar(t *testing.T) {
	var s worth.Season
	p := spring.Judge(status.Daily{year(16.5, 4), &s}, usual)
	if p.Crossing.Reason != crossing.Flat || p.Calendar != (status.Calendar{}) {
		t.Errorf("%v: calendar %v", p.Crossing.Reason, p.Calendar)
	}
}

// Common practice, no source: the lower Midwest treats from the end of March
// to early April, some sixteen to thirty days before 55 °F.
func TestMidwestOnTimeMatchesCommonPractice(t *testing.T) {
	var s worth.Season
	p := spring.Judge(status.Daily{year(11.5, 13.4), &s}, usual)
	if from := p.Calendar.OntimeFrom; from < season.Date(3, 20) || from > season.Date(4, 7) {
		t.Errorf("on time begins on %v", from)
	}
	if p.Calendar.CatchupTo <= p.Calendar.OntimeTo {
		t.Errorf("no catching up after %v", p.Calendar.OntimeTo)
	}
}

// As winters grow milder, Starts goes from being crossed to being always
// exceeded; the begin of on time must not jump there.
func TestOntimeBeginsWithoutAJump(t *testing.T) {
	var s worth.Season
	last := season.Day(math.NaN())
	for mean := 16.90; mean < 17.10; mean += 0.01 { // coldest day passes 50 °F at 17 °C
		p := spring.Judge(status.Daily{year(mean, 7), &s}, usual)
		from := p.Calendar.OntimeFrom
		if !math.IsNaN(float64(last)) && math.Abs(float64(from-last)) > 4 {
			t.Errorf("mean %.2f °C: on time begins %v days from its neighbour's", mean, from-last)
		}
		last = from
	}
}

func TestNoCrossingNoCalendar(t *testing.T) {
	var s worth.Season
	for _, y := range []*curve.Year{year(0, 5), year(25, 3)} {
		if p := spring.Judge(status.Daily{y, &s}, usual); p.Calendar != (status.Calendar{}) || p.Spread != 0 {
			t.Errorf("%v: calendar %v", p.Crossing.Reason, p.Calendar)
		}
	}
}

// A value is what the season says of the calendar's days, and is asked of the
// treatment halfway through on time.
func TestValueIsTheSeasons(t *testing.T) {
	soil := year(11.5, 13.4)
	w := spring
	w.Treatment = worth.Usual(worth.Short)
	w.Seeding = &worth.Overseeding{Day: season.Date(5, 20), Interval: 56}
	var used, own worth.Season
	cal := w.Judge(status.Daily{Soil: soil, Season: &used}, usual).Calendar
	v := w.Value(soil, cal, 11, &used)

	origin := season.Date(1, 24)
	own.FillWith(soil, w.Trigger, origin, w.Treatment, 11)
	if want := own.Costs(worth.Borders(cal)); v.Costs != want {
		t.Errorf("%+v, want %+v", v.Costs, want)
	}
	middle := origin.DaysTo(cal.OntimeFrom + (cal.OntimeTo-cal.OntimeFrom)/2)
	second, due := own.Second(middle, worth.SecondRule{})
	if want := float64(origin) + second; !due || !v.SecondDue || math.Abs(float64(v.Second)-want) > 1e-9 {
		t.Errorf("a second is due on %v (%v), want %v (%v)", float64(v.Second), v.SecondDue, want, due)
	}
	if want := w.Seeding.Within(worth.Borders(cal)); v.Seeding == nil || *v.Seeding != want {
		t.Errorf("seeding leaves %+v, want %+v", v.Seeding, want)
	}
	w.Seeding, w.Treatment = nil, worth.Usual(10*worth.Long)
	if v := w.Value(soil, cal, 11, &used); v.Seeding != nil || v.SecondDue || v.Second != 0 {
		t.Errorf("without seeding, of a treatment that outlasts the season: %+v", v)
	}
}
