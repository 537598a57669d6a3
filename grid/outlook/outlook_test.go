package outlook_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/outlook"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/units"
)

// cosine is a year coldest on 23 January, in °C.
func cosine(mean, a float64) *curve.Year { return cosineFrom(mean, a, 22) }

func cosineFrom(mean, a, coldest float64) *curve.Year {
	var y curve.Year
	for i := range y {
		y[i] = mean - a*math.Cos(2*math.Pi*(float64(i)-coldest)/season.YearDays)
	}
	return &y
}

var midwest = outlook.Place{Normal: cosine(11.5, 13.4), Trigger: spring, Spread: 9}

func expect(t testing.TB, p outlook.Place, readings ...outlook.Reading) outlook.Outlook {
	t.Helper()
	o, err := p.Expect(readings)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// off is a reading so many kelvins off the normal at a moment.
func off(p outlook.Place, d season.Day, kelvins float64) outlook.Reading {
	whole, part := math.Modf(float64(d.In()) - 1)
	a, b := p.Normal[int(whole)], p.Normal[(int(whole)+1)%season.YearDays]
	return outlook.Reading{Day: d, Soil: units.Celsius(a + part*(b-a) + kelvins)}
}

func ExamplePlace_Expect() {
	place := outlook.Place{
		Normal:  midwest.Normal,
		Trigger: crossing.Trigger{Level: 115.0 / 9, Direction: crossing.Warming}, // 55 °F
		Spread:  9, Error: 4,
	}
	o, err := place.Expect([]outlook.Reading{
		{Day: season.Date(time.April, 5) + 0.5, Soil: 10.4},
		{Day: season.Date(time.April, 12) + 0.5, Soil: 11.6},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("typically %v; soil is %+.1f K off normal\n", o.Typical.Day, float64(o.Departure))
	fmt.Printf("%v on %v, early %v, late %v\n", o.State, o.Day, o.Early, o.Late)
	// Output:
	// typically Apr 29; soil is +2.8 K off normal
	// expected on Apr 24, early Apr 16, late May 5
}

// Without a reading the outlook is the typical day with a normal spread.
func TestNoReadingsIsTheTypicalYear(t *testing.T) {
	for _, stdErr := range []float64{0, 5} {
		p := midwest
		p.Error = stdErr
		o := expect(t, p)
		want := crossing.Find(p.Normal, p.Trigger)
		sd := math.Hypot(9, stdErr)
		if o.State != outlook.Expected || o.Typical != want || o.Day != want.Day {
			t.Errorf("%v on %v, want exactly %v", o.State, o.Day, want.Day)
		}
		reach := season.Day(spread.EarlyBy(sd))
		if math.Abs(o.SD-sd) > 1e-12 || math.Abs(float64(o.Day-reach-o.Early)) > 1e-12 || math.Abs(float64(o.Day+reach-o.Late)) > 1e-12 {
			t.Errorf("sd %v from %v to %v, want %v", o.SD, float64(o.Early), float64(o.Late), sd)
		}
	}
}

// Worked by hand: spread 10 days at 0.2 K/d is σ = 2.4 K of daily soil, 3.456
// K² of it weather and 2.304 K² season. A reading 1.5 K warm is worth 1.5·5.76/
// (5.76 + 0.25) = 1.438 K that day, and 10 days on (3.456·e⁻² +
// 2.304·e⁻⁰·²)·1.5/6.01 = 0.588 K. A straight year reaching its level 10 days
// after the reading at 0.2 K/d meets it where 0.2·(10 − t) equals what is
// left: t = 6.21 days.
func TestOneReadingByHand(t *testing.T) {
	p := outlook.Place{Normal: new(curve.Year), Trigger: crossing.Trigger{Level: 20, Direction: crossing.Warming}, Spread: 10}
	for i := range p.Normal { // up 0.2 K/d from day 1 to 183, and down again
		p.Normal[i] = 0.2 * float64(min(i, 365-i))
	}
	left := func(d float64) float64 { return 1.5 / 6.01 * (3.456*math.Exp(-d/5) + 2.304*math.Exp(-d/50)) }
	if math.Abs(left(0)-1.438) > 0.001 || math.Abs(left(10)-0.588) > 0.001 {
		t.Fatalf("%v and %v K", left(0), left(10))
	}
	day := 0.0
	for 0.2*(10-day) > left(day) {
		day += 0.001
	}
	share := left(day) / 1.5 * math.Sqrt(6.01/5.76)
	sd := 10 * math.Sqrt(1-share*share)
	if math.Abs(day-6.21) > 0.01 {
		t.Fatalf("meets after %v days", day)
	}
	// The median of the logistic distribution of that mean and spread, cut
	// off at the reading: ln of the odds of (1 + before)/2.
	scale := 1.2815515655 * sd / math.Log(9)
	before := 1 / (1 + math.Exp(day/scale))
	median := day + scale*math.Log((1+before)/(1-before))

	o := expect(t, p, off(p, 91, 1.5))
	if got := float64(o.Day) - 91; o.State != outlook.Expected || math.Abs(got-median) > 0.02 {
		t.Errorf("%v %.3f days after the reading, want %.3f (mean %.3f)", o.State, got, median, day)
	}
	if math.Abs(float64(o.Departure)-1.5) > 1e-9 || o.Latest != 91 {
		t.Errorf("departure %v K at %v, want 1.5 at 91", float64(o.Departure), float64(o.Latest))
	}
}

// A reading exactly on the normal leaves the day and narrows the band.
func TestANormalReadingConfirms(t *testing.T) {
	typical := expect(t, midwest)
	o := expect(t, midwest, off(midwest, typical.Day-40, 0))
	if math.Abs(float64(o.Day-typical.Day)) > 0.3 || o.SD >= typical.SD {
		t.Errorf("%v ± %v, want about %v and less than %v", float64(o.Day), o.SD, float64(typical.Day), typical.SD)
	}
}

func TestPastIsNeverGivenAsFuture(t *testing.T) {
	day := expect(t, midwest).Day
	for _, c := range []struct {
		name string
		lead season.Day
		off  float64
		want outlook.State
	}{
		{"at the level a few days early", 5, 3, outlook.Reached},
		{"normal, a month after", -30, 0, outlook.Reached},
		{"cold, yet at the level, a month after", -30, -3, outlook.Reached},
		{"below the level a week late", -7, -4, outlook.Expected},
		{"a warm spell in March", 45, 11, outlook.Expected},
	} {
		o := expect(t, midwest, off(midwest, day-c.lead, c.off))
		if o.State != c.want {
			t.Errorf("%s: %v, want %v", c.name, o.State, c.want)
		}
		if o.State == outlook.Expected && (o.Early < o.Latest || o.Day <= o.Latest) {
			t.Errorf("%s: expected on %v, early %v, though read on %v", c.name, o.Day, o.Early, o.Latest)
		}
		if o.State == outlook.Reached && (o.Day != 0 || o.Early != 0 || o.Late != 0 || o.SD != 0) {
			t.Errorf("%s: reached, yet a day %v", c.name, o.Day)
		}
	}
}

func TestUndatedPlaces(t *testing.T) {
	for _, c := range []struct {
		year *curve.Year
		want crossing.Reason
	}{{cosine(0, 5), crossing.Never}, {cosine(25, 3), crossing.Always}, {cosine(13, 2), crossing.Flat}} {
		p := midwest
		p.Normal = c.year
		o := expect(t, p, off(p, 100, 2))
		if o.State != outlook.Undated || o.Typical.Reason != c.want || o.Day != 0 {
			t.Errorf("%v, %v, day %v; want undated, %v", o.State, o.Typical.Reason, o.Day, c.want)
		}
	}
	var zero outlook.Outlook
	if zero.State != outlook.Undated {
		t.Error("the zero outlook has a day")
	}
}

// A place that barely reaches the level does not reach it in a cold year.
func TestAColdYearMayMissTheLevel(t *testing.T) {
	p := midwest
	p.Normal = cosine(0, 14)
	day := expect(t, p).Typical.Day
	if o := expect(t, p, off(p, day, -9)); o.State != outlook.Unlikely {
		t.Errorf("%v on %v, want unlikely", o.State, o.Day)
	}
}

// Two readings of one day count as more than one and less than two; their
// order and the order of days do not matter.
func TestSeveralReadings(t *testing.T) {
	at := expect(t, midwest).Day - 20
	a, b, c := off(midwest, at+0.3, 2), off(midwest, at+0.8, 4), off(midwest, at-7, 3)
	o, back := expect(t, midwest, a, b, c), expect(t, midwest, c, b, a)
	if math.Abs(float64(o.Day-back.Day)) > 1e-9 || o.Latest != back.Latest || math.Abs(float64(o.Departure-back.Departure)) > 1e-9 {
		t.Errorf("%v in one order, %v in the other", float64(o.Day), float64(back.Day))
	}
	if math.Abs(float64(o.Departure)-3) > 0.2 || math.Abs(float64(o.Latest-at)-0.8) > 1e-9 {
		t.Errorf("departure %v K at %v, want the day's mean 3 at its latest reading", float64(o.Departure), o.Latest)
	}
	one, two := expect(t, midwest, a), expect(t, midwest, a, a)
	if !(two.SD < one.SD && two.Day < one.Day) {
		t.Errorf("the same reading twice: ± %v on %v, want less than ± %v and before %v", two.SD, float64(two.Day), one.SD, float64(one.Day))
	}
}

func TestNonsenseIsRefused(t *testing.T) {
	day := expect(t, midwest).Day
	good := off(midwest, day-20, 3)
	for _, c := range []struct {
		p    outlook.Place
		r    outlook.Reading
		want string
	}{
		{midwest, off(midwest, day-20, 40), "reading 2 of 2: 48.2 °C on Apr 9 is +40.0 K off the normal 8.2 °C; want at most 16 K"},
		{midwest, off(midwest, day-20, -16.1), "-16.1 K off the normal"},
		{midwest, outlook.Reading{Day: 90, Soil: units.Celsius(math.NaN())}, "reading 2 of 2"},
		{midwest, outlook.Reading{Day: season.Day(math.Inf(1)), Soil: 9}, "day +Inf is no day of a year; want 1 to 366"},
		{outlook.Place{Normal: midwest.Normal, Trigger: spring}, good, "spread of 0 days: want more than 0"},
		{outlook.Place{Normal: midwest.Normal, Trigger: spring, Spread: 9, Error: -1}, good, "error of the typical day of -1 days"},
	} {
		o, err := c.p.Expect([]outlook.Reading{good, c.r})
		if err == nil || !strings.Contains(err.Error(), c.want) || o != (outlook.Outlook{}) {
			t.Errorf("%v at %v: %v, %v; want %q", c.r.Soil, float64(c.r.Day), o.State, err, c.want)
		}
	}
	if _, err := midwest.Expect([]outlook.Reading{off(midwest, 80, 40), off(midwest, 90, 41)}); err == nil || strings.Count(err.Error(), "reading ") != 2 {
		t.Errorf("two bad readings: %v", err)
	}
}
