package curve_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

// wild returns curves whose coefficients are anything.
func wild(rng *rand.Rand) curve.Curve {
	c := curve.Curve{Mean: 20 * rng.NormFloat64()}
	for k := range c.Cos {
		c.Cos[k], c.Sin[k] = 10*rng.NormFloat64(), 10*rng.NormFloat64()
	}
	return c
}

// Sketch, Fine and On are the curve at their moments.
func TestEvenMomentsAreTheCurve(t *testing.T) {
	rng := rand.New(rand.NewPCG(32, 96))
	for range 20 {
		c := wild(rng)
		near := func(what string, day season.Day, got float64) {
			if want := float64(c.At(day)); math.Abs(got-want) > 1e-10 {
				t.Fatalf("%s at %v: %v, want %v", what, float64(day), got, want)
			}
		}
		var s curve.Sketch
		c.Sketch(&s)
		for j, v := range s {
			near("sketch", season.Day(1+float64(j)*curve.SketchStep), v)
		}
		var f curve.Fine
		c.Fine(&f)
		for j, v := range f {
			near("fine", season.Day(1+float64(j)*curve.FineStep), v)
		}
		for day := range season.YearDays {
			near("day", season.Day(day+1), c.On(day))
		}
	}
}

// The months of a year that is straight between moments are those of the
// curve, but for what it bends in between.
func TestMonthsOfFine(t *testing.T) {
	c := curve.FromMonths(&epstein)
	var f curve.Fine
	c.Fine(&f)
	bulge := units.Celsius(c.Bend() * curve.FineStep * curve.FineStep / 8)
	for m, mean := range f.MonthMeans() {
		if off := mean - epstein[m]; off > bulge || off < -bulge {
			t.Errorf("month %d: %v, want %v", m+1, mean, epstein[m])
		}
	}
	straight := curve.Fine{} // a tooth of 1 K on 1 January: half of it in January, half in December
	straight[0] = 1
	means := straight.MonthMeans()
	if want := units.Celsius(curve.FineStep / 2 / 31); math.Abs(float64(means[0]-want)) > 1e-12 || math.Abs(float64(means[11]-want)) > 1e-12 || means[5] != 0 {
		t.Errorf("a tooth gives %v", means)
	}
}

// No second difference exceeds what Bend allows.
func TestBendIsABound(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 2))
	closest := math.Inf(1)
	for range 200 {
		c := wild(rng)
		bend := c.Bend()
		for day := range season.YearDays {
			second := math.Abs(c.On((day+1)%season.YearDays) - 2*c.On(day) + c.On((day+season.YearDays-1)%season.YearDays))
			if second > bend {
				t.Fatalf("bends by %v, bound %v", second, bend)
			}
			closest = min(closest, bend/second)
		}
	}
	if closest > 3 {
		t.Errorf("the bound is never nearer than %v times", closest)
	}
}

func BenchmarkFromMonths(b *testing.B) {
	means := epstein
	for b.Loop() {
		curve.FromMonths(&means)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}

func BenchmarkSketch(b *testing.B) {
	c := wild(rand.New(rand.NewPCG(1, 2)))
	var s curve.Sketch
	for b.Loop() {
		c.Sketch(&s)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}

func BenchmarkFine(b *testing.B) {
	c := wild(rand.New(rand.NewPCG(1, 2)))
	var s curve.Fine
	for b.Loop() {
		c.Fine(&s)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}

func BenchmarkOn(b *testing.B) {
	c := wild(rand.New(rand.NewPCG(1, 2)))
	day := 0
	for b.Loop() {
		c.On(day)
		day = (day + 7) % season.YearDays
	}
}
