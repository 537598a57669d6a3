package outlook_test

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/outlook"
	"weekband/grid/season"
	"weekband/grid/units"
)

func TestAWarmerReadingIsNeverLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := outlook.Place{
			Normal:  cosineFrom(rapid.Float64Range(9, 18).Draw(t, "mean"), rapid.Float64Range(8, 15).Draw(t, "a"), rapid.Float64Range(0, 364).Draw(t, "coldest")),
			Trigger: crossing.Trigger{Level: units.Celsius(rapid.Float64Range(9, 18).Draw(t, "level"))},
			Spread:  rapid.Float64Range(4, 20).Draw(t, "spread"),
			Error:   rapid.Float64Range(0, 8).Draw(t, "error"),
		}
		cooling := rapid.Bool().Draw(t, "cooling")
		sign := 1.0
		if cooling {
			p.Trigger.Direction, sign = crossing.Cooling, -1
		}
		typical := crossing.Find(p.Normal, p.Trigger)
		if typical.Reason != crossing.Dated {
			return
		}
		var readings []outlook.Reading
		for range rapid.IntRange(1, 5).Draw(t, "readings") {
			lead := season.Day(rapid.Float64Range(-40, 120).Draw(t, "lead"))
			readings = append(readings, off(p, typical.Day-lead, rapid.Float64Range(-9, 9).Draw(t, "off")))
		}
		before, err := p.Expect(readings)
		if err != nil {
			t.Fatal(err)
		}
		which := rapid.IntRange(0, len(readings)-1).Draw(t, "which")
		readings[which].Soil += units.Celsius(sign * rapid.Float64Range(0, 6).Draw(t, "more"))
		after, err := p.Expect(readings)
		if err != nil {
			t.Fatal(err)
		}
		rank := func(o outlook.Outlook) float64 { // of the moment in the order of the outlooks
			switch o.State {
			case outlook.Reached:
				return math.Inf(-1)
			case outlook.Unlikely:
				return math.Inf(1)
			}
			return float64(o.Day)
		}
		if rank(after) > rank(before)+1e-6 {
			t.Fatalf("with more it is %v %v, before %v %v", after.State, float64(after.Day), before.State, float64(before.Day))
		}
		for _, o := range []outlook.Outlook{before, after} {
			if o.State == outlook.Expected && !(o.Latest <= o.Early && o.Early < o.Day && o.Day < o.Late && o.SD > 0) {
				t.Fatalf("reading %v, early %v, day %v, late %v", float64(o.Latest), float64(o.Early), float64(o.Day), float64(o.Late))
			}
		}
	})
}

// The same departure moves the day the less the older it is, and from half a
// year before on by less than half a day.
func TestAReadingFadesWithAge(t *testing.T) {
	typical := expect(t, midwest).Day
	last := math.Inf(1)
	for lead := season.Day(20); lead < 245; lead += 15 {
		o := expect(t, midwest, off(midwest, typical-lead, 4))
		moved := float64(typical - o.Day)
		if moved > last || moved < -0.01 {
			t.Errorf("%v days before the typical day 4 K move it %v days, nearer %v", lead, moved, last)
		}
		if lead > 180 && moved > 0.5 {
			t.Errorf("%v days before, 4 K still move it %v days", lead, moved)
		}
		last = moved
	}
	autumn := expect(t, midwest, off(midwest, season.Date(time.September, 10), -8))
	if math.Abs(float64(autumn.Day-typical)) > 0.3 || math.Abs(autumn.SD-9) > 0.01 || autumn.Latest > 1 {
		t.Errorf("a reading in September makes it %v ± %v, want the coming spring's %v ± 9", autumn.Day, autumn.SD, typical)
	}
}

// South of the equator, and with a crossing early in January, everything is
// as in the north; only the days wrap.
func TestShiftedYearShiftsTheOutlook(t *testing.T) {
	at := expect(t, midwest).Day - 12
	north := expect(t, midwest, off(midwest, at, -2), off(midwest, at-9, -3))
	for _, days := range []float64{60, 182, 247} {
		p := midwest
		p.Normal = cosineFrom(11.5, 13.4, 22+days)
		shifted := (at + season.Day(days)).In()
		south := expect(t, p, off(p, shifted, -2), off(p, (shifted-9).In(), -3))
		if math.Abs(south.Typical.Day.DaysTo(south.Day)-north.Typical.Day.DaysTo(north.Day)) > 1e-6 || math.Abs(south.SD-north.SD) > 1e-6 {
			t.Errorf("%v days on: %v ± %v, want %v ± %v later", days, south.Day, south.SD, north.Day, north.SD)
		}
		if !(south.Latest < south.Early && south.Early < south.Day && south.Day < south.Late) {
			t.Errorf("%v days on: the days are out of order: %+v", days, south)
		}
	}
}

// A cooling place is a warming one with all signs changed.
func TestCoolingMirrorsWarming(t *testing.T) {
	p := midwest
	p.Normal = new(curve.Year)
	for i, v := range midwest.Normal {
		p.Normal[i] = -v
	}
	p.Trigger = crossing.Trigger{Level: -spring.Level, Direction: crossing.Cooling}
	at := expect(t, midwest).Day - 15
	warm := expect(t, midwest, off(midwest, at, 3))
	cool := expect(t, p, off(p, at, -3))
	if math.Abs(float64(warm.Day-cool.Day)) > 1e-9 || math.Abs(warm.SD-cool.SD) > 1e-9 || cool.Departure > -2.9 {
		t.Errorf("cooling %v ± %v at %v K, want %v ± %v at -3", cool.Day, cool.SD, float64(cool.Departure), warm.Day, warm.SD)
	}
}

// A normal year that crosses early, falls back and rises again is typical from
// its first crossing on; a reading that says nothing must not move that.
func TestTheNormalsOwnRelapseIsNotThisYears(t *testing.T) {
	p := midwest
	p.Normal = cosine(11.5, 13.4)
	for i := 124; i < 140; i++ {
		p.Normal[i] = 11
	}
	typical := expect(t, p).Day
	for _, kelvins := range []float64{-1, 0, 1} {
		if o := expect(t, p, off(p, typical-150, kelvins)); math.Abs(float64(o.Day-typical)) > 0.3 {
			t.Errorf("%+v K in winter makes it %v, want about %v", kelvins, o.Day, typical)
		}
	}
}
