package worth_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/worth"
)

// midwest is the soil of a cold-winter place at 10 cm, a sinusoid.
func midwest() *curve.Year {
	var y curve.Year
	for i := range y {
		y[i] = 11.5 - 13.389*math.Cos(2*math.Pi*(float64(i)-23.6)/season.YearDays)
	}
	return &y
}

var spring = crossing.Trigger{Level: 115.0 / 9, Direction: crossing.Warming}

func ExampleSeason_At() {
	var s worth.Season
	s.Fill(midwest(), spring, 24, worth.Medium, 0)
	crossed := season.Day(24).DaysTo(crossing.Find(midwest(), spring).Day)
	fmt.Printf("on the crossing %.0f %%, five weeks later %.0f %%\n", 100*s.At(crossed), 100*s.At(crossed+35))
	// Output: on the crossing 64 %, five weeks later 58 %
}

// Shares of a Gompertz curve through 25 % at 140 and 75 % at 230 degree-days
// base 12 °C: a = 16.003343, b = 0.017472595, and 1.664 % at 78, 53.18 % at
// 185, 91.88 % at 300 (computed from the formula). The two phases are those of
// Fidanza, Dernoeden and Zhang 1996.
func TestSummerEmergence(t *testing.T) {
	e := worth.Summer
	if math.Abs(e.A-16.003343) > 1e-5 || math.Abs(e.B-0.017472595) > 1e-9 {
		t.Errorf("a = %.6f, b = %.9f", e.A, e.B)
	}
	for d, want := range map[float64]float64{0: 0, 42: 0.00046, 52: 0.00158, 78: 0.01664, 140: 0.25, 185: 0.5318, 230: 0.75, 300: 0.9188} {
		if got := e.Share(d); math.Abs(got-want) > 5e-5 {
			t.Errorf("share at %v degree-days is %.5f, want %.5f", d, got, want)
		}
	}
}

// With all weeds coming up at one moment a first-order residual leaves
// 0.5^(days/half): the fractions of a decay table, 0.707 and 0.500 for a
// half-life of 60 days after 30 and 60.
func TestResidualIsFirstOrder(t *testing.T) {
	var step curve.Year // a flash of heat on day 200 brings everything up
	step[199] = 12 + 2000
	for _, half := range []float64{30, 60, 120} {
		var s worth.Season
		s.Fill(&step, crossing.Trigger{Level: 12, Direction: crossing.Warming}, 1, half, 0)
		for _, before := range []float64{30, 60, 90, 120} {
			got, want := s.At(199.5-before), math.Exp2(-before/half)
			if math.Abs(got-want) > 0.002 {
				t.Errorf("half-life %v, %v days before: %.4f, want %.4f", half, before, got, want)
			}
		}
		if got := s.At(201); got != 0 {
			t.Errorf("after all are up an application is worth %v, want 0", got)
		}
	}
}

func TestWorthIsAShareAndFallsAtTheEnd(t *testing.T) {
	for _, half := range []float64{worth.Short, worth.Medium, worth.Long} {
		var s worth.Season
		s.Fill(midwest(), spring, 24, half, 11)
		peak := 0.0
		for d := -60.0; d < 365; d++ {
			v := s.At(d)
			if v < 0 || v > 1 {
				t.Fatalf("worth %v after %v days", v, d)
			}
			peak = max(peak, v)
		}
		last, ok := s.LastAbove(0.25, 90)
		if !ok || math.Abs(s.At(last)-0.25) > 0.001 || s.At(last+1) >= 0.25 {
			t.Errorf("half-life %v: last above a quarter %v (%v), worth there %v", half, last, ok, s.At(last))
		}
		if peak < 0.3 {
			t.Errorf("half-life %v: never worth more than %v", half, peak)
		}
	}
}

// A longer residual is never worth less, and an early application gains most.
func TestLongerResidualIsWorthMore(t *testing.T) {
	var short, long worth.Season
	short.Fill(midwest(), spring, 24, worth.Short, 11)
	long.Fill(midwest(), spring, 24, worth.Long, 11)
	for d := 0.0; d < 250; d += 5 {
		if long.At(d) < short.At(d)-1e-12 {
			t.Errorf("after %v days long is worth %v, short %v", d, long.At(d), short.At(d))
		}
	}
}

// A year too cold for any degree-day has no worth rather than a division by
// zero.
func TestNoSeason(t *testing.T) {
	var cold curve.Year
	var s worth.Season
	s.Fill(&cold, spring, 1, worth.Medium, 11)
	if v := s.At(100); v != 0 {
		t.Errorf("worth %v in a year without a season", v)
	}
	if _, ok := s.LastAbove(0.25, 0); ok {
		t.Error("a year without a season has a last worthwhile day")
	}
}

func BenchmarkFill(b *testing.B) {
	year := midwest()
	var s worth.Season
	for b.Loop() {
		s.Fill(year, spring, 24, worth.Medium, 11)
		s.LastAbove(0.25, 90)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}
