package curve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

// epstein is the input of the reference run of a public program adapted from
// Epstein 1991, with its December read as -4.29.
var epstein = [12]units.Celsius{-6.77, -4.33, 1.52, 8.35, 14.74, 20.29, 23.22, 22.17, 16.94, 10.35, 3.08, -4.29}

func ExampleFromMonths() {
	c := curve.FromMonths(&epstein)
	fmt.Printf("%.4f\n", float64(c.At(1.5))) // noon on 1 January
	fmt.Printf("%.2f\n", float64(c.MonthMeans()[0]))
	// Output:
	// -6.6096
	// -6.77
}

// The exact variant of Epstein's method, values computed once in double
// precision by solving the 12 × 12 system.
func TestFromMonthsAgainstExactEpstein(t *testing.T) {
	c := curve.FromMonths(&epstein)
	for days, want := range map[float64]float64{0.5: -6.6096, 14.5: -6.9889, 73.5: 1.2655, 195.5: 23.3462} {
		if got := float64(c.At(season.Day(days + 1))); math.Abs(got-want) > 5e-5 {
			t.Errorf("f(%v) = %.5f, want %.4f", days, got, want)
		}
	}
}

// Epstein's own equal-month curve for the same input has its minimum on day
// 13 (-6.98975 °C) and its maximum on day 206 (23.55625 °C); the exact one
// must stay within the half degree by which sound methods differ.
func TestFromMonthsNearEqualMonthEpstein(t *testing.T) {
	c := curve.FromMonths(&epstein)
	var year curve.Year
	c.Sample(&year)
	lo, hi := year[0], year[0]
	for _, v := range year {
		lo, hi = min(lo, v), max(hi, v)
	}
	if math.Abs(lo+6.98975) > 0.1 || math.Abs(hi-23.55625) > 0.25 {
		t.Errorf("range %.4f to %.4f, want about -6.990 to 23.556", lo, hi)
	}
}

func TestMonthMeansAreKept(t *testing.T) {
	rng := rand.New(rand.NewPCG(1991, 365))
	for range 200 {
		var means [12]units.Celsius
		for m := range means {
			means[m] = units.Celsius(rng.Float64()*60 - 25)
		}
		c := curve.FromMonths(&means)
		for m, got := range c.MonthMeans() {
			if math.Abs(float64(got-means[m])) > 1e-9 {
				t.Fatalf("month %d: %v, want %v", m+1, float64(got), float64(means[m]))
			}
		}
		// A second way to the same means: the average of many points.
		sum, n := 0.0, 0
		for at := 32.0; at < 60; at += 1.0 / 64 { // February is [32, 60)
			sum += float64(c.At(season.Day(at + 1.0/128)))
			n++
		}
		if math.Abs(sum/float64(n)-float64(means[1])) > 1e-3 {
			t.Fatalf("February averages %v, want %v", sum/float64(n), float64(means[1]))
		}
	}
}

// A pure annual wave sampled as exact monthly means comes back whole: the
// property that a plain interpolation between mid-months fails by 1.14 %.
func TestPureWaveComesBack(t *testing.T) {
	wave := curve.Curve{Mean: 10}
	wave.Cos[0], wave.Sin[0] = -12*math.Cos(0.5), -12*math.Sin(0.5)
	means := wave.MonthMeans()
	got := curve.FromMonths(&means)
	if math.Abs(math.Hypot(got.Cos[0], got.Sin[0])-12) > 1e-12*10 || math.Abs(got.Mean-10) > 1e-11 {
		t.Errorf("amplitude %v, mean %v; want 12 and 10", math.Hypot(got.Cos[0], got.Sin[0]), got.Mean)
	}
	if phase := math.Atan2(-got.Sin[0], -got.Cos[0]); math.Abs(phase-0.5) > 1e-12*10 {
		t.Errorf("phase %v, want 0.5", phase)
	}
	for k := 1; k < curve.Order; k++ {
		if math.Abs(got.Cos[k]) > 1e-11 || math.Abs(got.Sin[k]) > 1e-11 {
			t.Errorf("harmonic %d is %v, %v; want 0", k+1, got.Cos[k], got.Sin[k])
		}
	}
}

func TestSampleAgreesWithAt(t *testing.T) {
	c := curve.FromMonths(&epstein)
	var year curve.Year
	c.Sample(&year)
	for i := range year {
		d := season.Day(i + 1)
		if math.Abs(year[i]-float64(c.At(d))) > 1e-12*100 {
			t.Fatalf("day %v: sample %v, At %v", d, year[i], c.At(d))
		}
	}
}

func TestFromDaysFindsTheCurveBack(t *testing.T) {
	want := curve.FromMonths(&epstein)
	days := make([]units.Celsius, season.YearDays)
	for i := range days {
		for q := range 96 { // the mean of a day by quarter hours
			days[i] += want.At(season.Day(float64(i)+1+(float64(q)+0.5)/96)) / 96
		}
	}
	got := curve.FromDays(days, curve.Order)
	for d := season.Day(1); d < 366; d += 7.3 {
		if math.Abs(float64(got.At(d)-want.At(d))) > 1e-4 {
			t.Fatalf("%v: %v, want %v", d, got.At(d), want.At(d))
		}
	}
}

func BenchmarkFromMonthsAndSample(b *testing.B) {
	var year curve.Year
	for b.Loop() {
		c := curve.FromMonths(&epstein)
		c.Sample(&year)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}

func BenchmarkFromDays(b *testing.B) {
	days := make([]units.Celsius, season.YearDays)
	for i := range days {
		days[i] = units.Celsius(10 - 12*math.Cos(2*math.Pi*float64(i)/season.YearDays))
	}
	for b.Loop() {
		curve.FromDays(days, curve.Order)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}
