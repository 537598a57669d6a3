package crossing_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

func celsius(t testing.TB, text string) units.Celsius {
	t.Helper()
	c, err := units.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// cosine is a year T = mean − a·cos(2π(t − coldest)/365), t in days from
// 1 January 0:00.
func cosine(mean, a, coldest float64) *curve.Year {
	var y curve.Year
	for i := range y {
		y[i] = mean - a*math.Cos(2*math.Pi*(float64(i)-coldest)/season.YearDays)
	}
	return &y
}

func ExampleFind() {
	year := cosine(10, 12, 14) // coldest at 0:00 on 15 January
	c := crossing.Find(year, crossing.Trigger{Level: 10, Direction: crossing.Warming})
	fmt.Printf("%.2f %s, %.3f K/d, %s\n", float64(c.Day), c.Day, c.Slope, c.Reason)
	// Output: 106.25 Apr 16, 0.207 K/d, dated
}

// The closed form of a sinusoid at depth: damped by exp(−z/d), late by z/d
// radians, it crosses at t0 + L ± arccos((Tm−thr)/a)·P/2π. The table is the
// same formula in double precision for P = 365.25, κ = 0.5e-6 m²/s (soil-heat
// conduction after Hillel 1982); days count 1 January 0:00 as 0 there.
func TestFindAgainstTheSinusoid(t *testing.T) {
	cases := []struct {
		name                   string
		tm, a, t0, z           float64
		warming, slope, cooled float64 // cooled 0: never
	}{
		{"Gulf-like, surface", 20.5, 8.5, 20, 0, 45.0618, 0.06110, 289.7545},
		{"Gulf-like, 10 cm", 20.5, 8.5, 20, 0.10, 41.0629, 0.04369, 292.1572},
		{"transition, surface", 15.5, 11.5, 20, 0, 97.4201, 0.19221, 264.3075},
		{"transition, 10 cm", 15.5, 11.5, 20, 0.10, 99.3668, 0.18331, 265.4077},
		{"midwest, surface", 11.5, 14, 21, 0, 117.6255, 0.23983, 250.9509},
		{"midwest, 10 cm", 11.5, 14, 21, 0.10, 120.4626, 0.22927, 250.9864},
		{"north, 10 cm", 8, 15, 22, 0.10, 135.6443, 0.23269, 231.5097},
		{"mountain, 10 cm", 8.5, 13, 24, 0.10, 138.3252, 0.20081, 0},
	}
	const year = 365.25
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			damp := math.Sqrt(0.5e-6 * year * 86400 / math.Pi)
			a, late := c.a*math.Exp(-c.z/damp), c.z/damp*year/(2*math.Pi)
			// One lap of the 365-day year stands for one lap of the wave.
			lap := season.YearDays / year
			y := cosine(c.tm, a, (c.t0+late)*lap)
			up := crossing.Find(y, crossing.Trigger{Level: celsius(t, "55 °F"), Direction: crossing.Warming})
			if got := float64(up.Day-1) / lap; math.Abs(got-c.warming) > 0.005 {
				t.Errorf("warming day %.4f, want %.4f", got, c.warming)
			}
			if got := up.Slope * lap; math.Abs(got-c.slope) > 2e-5 {
				t.Errorf("slope %.5f, want %.5f", got, c.slope)
			}
			down := crossing.Find(y, crossing.Trigger{Level: celsius(t, "70 °F"), Direction: crossing.Cooling})
			if c.cooled == 0 {
				if down.Reason != crossing.Never {
					t.Errorf("cooling: %v, want never", down.Reason)
				}
			} else if got := float64(down.Day-1) / lap; math.Abs(got-c.cooled) > 0.005 {
				t.Errorf("cooling day %.4f, want %.4f", got, c.cooled)
			}
			if flat := c.slope < crossing.FlatSlope; (up.Reason == crossing.Flat) != flat {
				t.Errorf("reason %v at slope %.3f", up.Reason, c.slope)
			}
		})
	}
}

// The exact variant of Epstein's curve: rising 55 °F at t = 125.995 days
// (linear between points), falling 70 °F at t = 236.831.
func TestFindOnEpsteinsCurve(t *testing.T) {
	means := [12]units.Celsius{-6.77, -4.33, 1.52, 8.35, 14.74, 20.29, 23.22, 22.17, 16.94, 10.35, 3.08, -4.29}
	c := curve.FromMonths(&means)
	var y curve.Year
	c.Sample(&y)
	for _, k := range []struct {
		level string
		dir   crossing.Direction
		want  float64
	}{{"55 °F", crossing.Warming, 126.995}, {"70 °F", crossing.Cooling, 237.831}} {
		got := crossing.Find(&y, crossing.Trigger{Level: celsius(t, k.level), Direction: k.dir})
		if math.Abs(float64(got.Day)-k.want) > 0.002 {
			t.Errorf("%s %v: day %.4f, want %.3f", k.level, k.dir, float64(got.Day), k.want)
		}
	}
}

// The growing season of ETCCDI begins with warm days at 100 to 250: a step
// year of 10 °C in between and 0 °C outside is crossed on those borders.
func TestFindOnAStep(t *testing.T) {
	var y curve.Year
	for i := range y {
		if doy := i + 1; doy >= 100 && doy <= 250 {
			y[i] = 10
		}
	}
	up := crossing.Find(&y, crossing.Trigger{Level: 5, Direction: crossing.Warming})
	down := crossing.Find(&y, crossing.Trigger{Level: 5, Direction: crossing.Cooling})
	if up.Day <= 99 || up.Day > 100 || down.Day <= 250 || down.Day > 251 {
		t.Errorf("crosses at %v and %v, want within (99, 100] and (250, 251]", float64(up.Day), float64(down.Day))
	}
}

func TestReasons(t *testing.T) {
	year := cosine(10, 5, 14) // 5 to 15 °C
	for _, c := range []struct {
		level units.Celsius
		dir   crossing.Direction
		want  crossing.Reason
	}{
		{4, crossing.Warming, crossing.Always},
		{5, crossing.Warming, crossing.Always}, // just touched: never below
		{15.001, crossing.Warming, crossing.Never},
		{4, crossing.Cooling, crossing.Always},
		{16, crossing.Cooling, crossing.Never},
		{10, crossing.Warming, crossing.Dated},
		{10, crossing.Cooling, crossing.Dated},
		{14.999, crossing.Warming, crossing.Flat},
	} {
		if got := crossing.Find(year, crossing.Trigger{Level: c.level, Direction: c.dir}); got.Reason != c.want {
			t.Errorf("%v %v: %v, want %v", float64(c.level), c.dir, got.Reason, c.want)
		}
	}
	var zero crossing.Crossing
	if zero.Reason.HasDay() {
		t.Error("the zero crossing has a day")
	}
}

func TestFirstOfTwoTouchesCounts(t *testing.T) {
	year := cosine(10, 12, 14)
	first := crossing.Find(year, crossing.Trigger{Level: 10, Direction: crossing.Warming})
	for i := 120; i < 140; i++ { // a relapse after the crossing
		year[i] = 8
	}
	again := crossing.Find(year, crossing.Trigger{Level: 10, Direction: crossing.Warming})
	if math.Abs(float64(first.Day-again.Day)) > 1e-9 {
		t.Errorf("a later dip moved the day from %v to %v", first.Day, again.Day)
	}
}

func TestWrapsOverNewYear(t *testing.T) {
	// Coldest in mid-November, so that the rise passes New Year.
	year := cosine(14, 6, 319)
	c := crossing.Find(year, crossing.Trigger{Level: celsius(t, "55 °F"), Direction: crossing.Warming})
	want := 319 + math.Acos((14-115.0/9)/6)*season.YearDays/(2*math.Pi) - season.YearDays + 1
	if math.Abs(float64(c.Day)-want) > 0.005 || c.Day > 60 {
		t.Errorf("day %v, want %v", float64(c.Day), want)
	}
}

// South of the equator the same year comes half a year later, and so does
// its crossing.
func TestSouthernHemisphereMirrors(t *testing.T) {
	north := crossing.Find(cosine(12, 8, 14), crossing.Trigger{Level: 13, Direction: crossing.Warming})
	south := crossing.Find(cosine(12, 8, 14+182.5), crossing.Trigger{Level: 13, Direction: crossing.Warming})
	if got := north.Day.DaysTo(south.Day); math.Abs(got-182.5) > 0.01 {
		t.Errorf("%v days apart, want 182.5", got)
	}
}

func TestWarmingNeverDelays(t *testing.T) {
	for _, a := range []float64{4, 8, 12} {
		for warm := 0.0; warm < 3; warm += 0.25 {
			cool := crossing.Find(cosine(12, a, 20), crossing.Trigger{Level: 13, Direction: crossing.Warming})
			mild := crossing.Find(cosine(12+warm, a, 20), crossing.Trigger{Level: 13, Direction: crossing.Warming})
			if mild.Reason.HasDay() && mild.Day > cool.Day+1e-6 {
				t.Errorf("amplitude %v: %v K warmer crosses at %v, later than %v", a, warm, mild.Day, cool.Day)
			}
		}
	}
}

func TestDirectionText(t *testing.T) {
	var d crossing.Direction
	if err := d.UnmarshalText([]byte("cooling")); err != nil || d != crossing.Cooling {
		t.Errorf("cooling read as %v, %v", d, err)
	}
	if err := d.UnmarshalText([]byte("rising")); err == nil {
		t.Error("rising is no direction, yet it was read")
	}
}

func BenchmarkFind(b *testing.B) {
	year := cosine(11.5, 14, 21)
	trigger := crossing.Trigger{Level: celsius(b, "55 °F"), Direction: crossing.Warming}
	for b.Loop() {
		crossing.Find(year, trigger)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}
