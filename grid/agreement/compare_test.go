package agreement_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"weekband/grid/agreement"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/series"
	"weekband/grid/units"
)

// wave is a year with its coldest time on 20 January.
func wave(mean, amplitude float64) *curve.Year {
	var y curve.Year
	for i := range y {
		y[i] = mean - amplitude*math.Cos(2*math.Pi*(float64(i)-19)/season.YearDays)
	}
	return &y
}

// reads returns a log of a year warmer by some kelvins, read every few days.
func reads(year *curve.Year, warmer float64, from, to series.Date, every int) *agreement.Log {
	l := &agreement.Log{Name: "Fenmark"}
	for d := from; d < to; d += series.Date(every) {
		l.Readings = append(l.Readings, agreement.Reading{Date: d, Soil: units.Celsius(year.At(d.Noon()) + warmer)})
	}
	return l
}

var spring = crossing.Trigger{Level: 12}

func ExampleCompare() {
	year := wave(11, 12)
	l := reads(year, 1, series.NewDate(2026, time.January, 1), series.NewDate(2026, time.July, 1), 7)
	p := agreement.Compare(l, agreement.Map{Year: year, Trigger: spring, Spread: 11})
	fmt.Printf("%+.1f K, %+.1f days from %v\n", float64(p.Departure), p.Off, p.Crossing.Day)
	// Output: +1.0 K, -4.8 days from Apr 26
}

// A log one kelvin warmer all year crosses earlier by what the slope makes of
// it, read weekly or daily (then with the lag of half the seven days).
func TestOffIsDepartureOverSlope(t *testing.T) {
	year := wave(11, 12)
	slope := crossing.Find(year, spring).Slope
	for _, c := range []struct {
		every int
		lag   float64
	}{{1, 3}, {3, 0}, {7, 0}, {14, 0}} {
		for _, warmer := range []float64{-2, 0, 1.5} {
			l := reads(year, warmer, series.NewDate(2020, time.January, 1), series.NewDate(2023, time.January, 1), c.every)
			p := agreement.Compare(l, agreement.Map{Year: year, Trigger: spring, Spread: 11, Error: 4})
			want := -warmer/slope + c.lag
			if len(p.Years) != 3 || math.Abs(p.Off-want) > 0.8 {
				t.Errorf("every %d days, %+.1f K: %d years, off by %.2f days, want %.2f", c.every, warmer, len(p.Years), p.Off, want)
			}
		}
	}
}

func TestYearsThatTellNothing(t *testing.T) {
	year := wave(11, 12)
	m := agreement.Map{Year: year, Trigger: spring, Spread: 11}
	for name, l := range map[string]*agreement.Log{
		"begins past the level":     reads(year, 0, series.NewDate(2026, time.June, 1), series.NewDate(2026, time.September, 1), 1),
		"weekly, begins past it":    reads(year, 0, series.NewDate(2026, time.June, 1), series.NewDate(2026, time.September, 1), 7),
		"ends before it":            reads(year, 0, series.NewDate(2026, time.January, 25), series.NewDate(2026, time.April, 1), 1),
		"one reading":               reads(year, 0, series.NewDate(2026, time.May, 1), series.NewDate(2026, time.May, 2), 1),
		"a gap over the crossing":   {Readings: append(reads(year, 0, series.NewDate(2026, time.February, 1), series.NewDate(2026, time.April, 1), 7).Readings, reads(year, 0, series.NewDate(2026, time.May, 20), series.NewDate(2026, time.July, 1), 7).Readings...)},
		"autumn, falling":           reads(year, 0, series.NewDate(2026, time.September, 1), series.NewDate(2026, time.December, 1), 1),
		"a cool day behind a gap":   {Readings: append(reads(year, 0, series.NewDate(2026, time.February, 1), series.NewDate(2026, time.April, 1), 7).Readings, reads(year, -8, series.NewDate(2026, time.September, 1), series.NewDate(2026, time.September, 8), 7).Readings[0], agreement.Reading{Date: series.NewDate(2026, time.September, 8), Soil: 15}, agreement.Reading{Date: series.NewDate(2026, time.September, 15), Soil: 15})},
		"no readings":               {},
		"a single reading above it": reads(wave(7, 4.9), 0.2, series.NewDate(2026, time.January, 25), series.NewDate(2026, time.December, 1), 200),
	} {
		if p := agreement.Compare(l, m); len(p.Years) != 0 {
			t.Errorf("%s: years %v", name, p.Years)
		}
	}
}

// Two readings of one day count as their mean, and order does not matter.
func TestReadingsOfOneDay(t *testing.T) {
	d := series.NewDate(2026, time.March, 3)
	l := &agreement.Log{Readings: []agreement.Reading{{d + 7, 9}, {d, 4}, {d, 8}}}
	p := agreement.Compare(l, agreement.Map{Year: wave(6, 0), Trigger: spring, Spread: 11})
	if p.Readings != 2 || math.Abs(float64(p.Departure)-1.5) > 1e-9 || l.Readings[0].Soil != 6 {
		t.Errorf("%d readings, departure %v", p.Readings, p.Departure)
	}
}

func TestCoolingAndNewYear(t *testing.T) {
	year := wave(20, 8) // falls through 14 °C in December
	trigger := crossing.Trigger{Level: 14, Direction: crossing.Cooling}
	l := reads(year, 1.2, series.NewDate(2021, time.June, 1), series.NewDate(2024, time.May, 1), 7)
	p := agreement.Compare(l, agreement.Map{Year: year, Trigger: trigger, Spread: 11})
	if len(p.Years) != 3 || p.Off < 5 || p.Off > 30 {
		t.Errorf("%d years, off by %.1f days about %v", len(p.Years), p.Off, p.Crossing.Day)
	}
	if p.Years[0].Year != 2021 {
		t.Errorf("the first season is %d, want 2021", p.Years[0].Year)
	}
}

func TestSum(t *testing.T) {
	day := crossing.Crossing{Day: 100, Reason: crossing.Dated}
	places := []agreement.Place{
		{Readings: 10, Departure: 1, Size: 2, Crossing: day, Off: 3, Years: []agreement.Year{{Inside: true}, {}}},
		{Readings: 30, Departure: -1, Size: 1, Crossing: day, Off: -5, Years: []agreement.Year{{Inside: true}}},
		{Readings: 20, Departure: 0.5, Size: 0.5}, // no years
		{}, // nothing
	}
	got := agreement.Sum(places)
	want := agreement.Total{
		Places: 3, Readings: 60, Departure: -10.0 / 60, Size: 60.0 / 60,
		Dated: 2, Years: 3, Off: -1, OffError: 4, OffSize: 4, Inside: 2.0 / 3,
	}
	if math.Abs(float64(got.Departure-want.Departure)) > 1e-12 || math.Abs(got.OffError-want.OffError) > 1e-12 {
		t.Errorf("got %+v, want %+v", got, want)
	}
	got.Departure, got.OffError = want.Departure, want.OffError
	if got != want {
		t.Errorf("got %+v, want %+v", got, want)
	}
}
