package soil_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/units"
)

func wave(mean, a float64, k int, phase float64) *curve.Year {
	var y curve.Year
	for i := range y {
		y[i] = mean + a*math.Cos(2*math.Pi*float64(k)*float64(i)/season.YearDays-phase)
	}
	return &y
}

func ExampleModel_Apply() {
	air := wave(12, 10, 1, 3.5) // 2 to 22 °C
	var ground curve.Year
	soil.Default.Apply(air, &ground)
	fmt.Printf("air %.2f °C, soil %.2f °C at 0:00 on 1 May\n", air[120], ground[120])
	// Output: air 13.36 °C, soil 14.10 °C at 0:00 on 1 May
}

// A first-order lag takes a wave of angular frequency ω to 1/√(1+(ωτ)²) of
// its amplitude, arctan(ωτ) radians later: any textbook of linear systems.
func TestLagAgainstItsFrequencyResponse(t *testing.T) {
	const tau = 5.0
	model := soil.Model{Lag: tau, Frozen: 1}
	for k := 1; k <= 4; k++ {
		omega := 2 * math.Pi * float64(k) / season.YearDays
		var got curve.Year
		model.Apply(wave(12, 10, k, 0.7), &got)
		want := wave(12, 10/math.Hypot(1, omega*tau), k, 0.7+math.Atan(omega*tau))
		for i := range got {
			if math.Abs(got[i]-want[i]) > 1e-3*float64(k*k) { // the input is straight between days
				t.Fatalf("harmonic %d, day %d: %v, want %v", k, i+1, got[i], want[i])
			}
		}
	}
}

func TestFrostReachesSoilWeakly(t *testing.T) {
	air := wave(0, 10, 1, math.Pi)
	var got curve.Year
	soil.Model{Frozen: 0.3}.Apply(air, &got)
	if math.Abs(got[0]+3) > 1e-12 {
		t.Errorf("air of -10 °C gives soil of %v °C, want -3", got[0])
	}
	if math.Abs(got[182]-air[182]) > 1e-12 {
		t.Errorf("air above 0 °C changed from %v to %v", air[182], got[182])
	}
}

func TestOffset(t *testing.T) {
	var got curve.Year
	model := soil.Model{Frozen: 1, Offset: soil.Offset{Mean: 1, Cos1: 2, Sin1: 3, Cos2: 4, Sin2: 5}}
	model.Apply(wave(10, 0, 1, 0), &got)
	for i := range got {
		x := 2 * math.Pi * float64(i) / season.YearDays
		want := 11 + 2*math.Cos(x) + 3*math.Sin(x) + 4*math.Cos(2*x) + 5*math.Sin(2*x)
		if math.Abs(got[i]-want) > 1e-12*10 {
			t.Fatalf("day %d: %v, want %v", i+1, got[i], want)
		}
	}
}

func TestAirLeavesAirAlone(t *testing.T) {
	air := wave(-3, 15, 1, 1)
	var got curve.Year
	soil.Air.Apply(air, &got)
	if got != *air {
		t.Error("soil.Air changed the year")
	}
}

// Annual and daily damping depths in m by diffusivity in 1e-6 m²/s, for a
// year of 365.25 days, computed from √(2κ/ω). The handbook range "annual 1.5
// to 3 m, daily 8 to 15 cm" (Campbell and Norman 1998; from memory) holds
// them.
func TestDampingDepth(t *testing.T) {
	for _, c := range []struct{ k, annual, daily float64 }{
		{0.2, 1.4174, 0.07416}, {0.4, 2.0045, 0.10488}, {0.5, 2.2411, 0.11726},
		{0.6, 2.4550, 0.12846}, {0.8, 2.8348, 0.14833}, {1.0, 3.1694, 0.16584},
	} {
		if got := soil.DampingDepth(c.k*1e-6, 365.25); math.Abs(got-c.annual) > 5e-5 {
			t.Errorf("κ %v: annual %.5f, want %.4f", c.k, got, c.annual)
		}
		if got := soil.DampingDepth(c.k*1e-6, 1); math.Abs(got-c.daily) > 5e-6 {
			t.Errorf("κ %v: daily %.6f, want %.5f", c.k, got, c.daily)
		}
	}
	// A university's soil-physics exercise: κ = 0.2e-6 m²/s, 365 days.
	if got := soil.DampingDepth(0.2e-6, 365); math.Abs(got-1.4169) > 5e-5 {
		t.Errorf("exercise: %.5f m, want 1.4169", got)
	}
}

// Conduction of a pure annual wave: T = 12 − 13·exp(−z/d)·cos(ω(t−20) − z/d),
// the classical solution (Hillel 1982; van Wijk and de Vries 1963).
func TestConductionAgainstTheClosedForm(t *testing.T) {
	at := func(z float64) *curve.Year {
		u := z / soil.DampingDepth(soil.DefaultDiffusivity, season.YearDays)
		return wave(12, -13*math.Exp(-u), 1, 2*math.Pi*20/season.YearDays+u)
	}
	for _, c := range []struct{ from, to float64 }{{0, 0.05}, {0, 0.10}, {0, 1}, {0.10, 0.05}, {0.10, 2}} {
		got := *at(c.from)
		step := soil.NewConduction(soilDepth(c.from), soilDepth(c.to), soil.DefaultDiffusivity)
		step.Apply(&got)
		want := at(c.to)
		for i := range got {
			if math.Abs(got[i]-want[i]) > 1e-9 {
				t.Fatalf("%v m to %v m, day %d: %v, want %v", c.from, c.to, i+1, got[i], want[i])
			}
		}
	}
	// Ratios and lags at κ = 0.5e-6: 0.95636 and 2.594 days at 10 cm, of a
	// year of 365.25 days; a year of 365 days differs in the fourth digit.
	u := 0.10 / soil.DampingDepth(soil.DefaultDiffusivity, 365.25)
	if math.Abs(math.Exp(-u)-0.95636) > 5e-6 || math.Abs(u*365.25/(2*math.Pi)-2.594) > 5e-4 {
		t.Errorf("10 cm: ratio %.5f, lag %.3f d", math.Exp(-u), u*365.25/(2*math.Pi))
	}
}

func TestFourInchesAreTenCentimetres(t *testing.T) {
	year := *wave(12, 10, 1, 0.3)
	same := year
	step := soil.NewConduction(soil.OffsetDepth, 0.1016, soil.DefaultDiffusivity)
	step.Apply(&year)
	if year != same {
		t.Error("10 cm to 4 in changed the year")
	}
}

func BenchmarkApply(b *testing.B) {
	air := wave(8, 14, 1, 3.5)
	var got curve.Year
	for b.Loop() {
		soil.Default.Apply(air, &got)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}

func soilDepth(m float64) units.Metres { return units.Metres(m) }
