package soil_test

import (
	"math"
	"testing"

	"weekband/grid/soil"
)

// Amplitude ratios and lags of the annual wave (365.25 days) at turf depths,
// by diffusivity in 1e-6 m²/s: exp(−z/d) and z/(dω), computed in double
// precision from Hillel 1982, Introduction to Soil Physics. 5 and 10 cm are 2
// and 4 in.
func TestTurfDepths(t *testing.T) {
	const year = 365.25
	for _, c := range []struct{ k, ratio5, lag5, ratio10, lag10 float64 }{
		{0.2, 0.96534, 2.051, 0.93188, 4.101}, {0.4, 0.97536, 1.450, 0.95134, 2.900}, {0.5, 0.97794, 1.297, 0.95636, 2.594},
		{0.6, 0.97984, 1.184, 0.96009, 2.368}, {0.8, 0.98252, 1.025, 0.96534, 2.051}, {1.0, 0.98435, 0.917, 0.96894, 1.834},
	} {
		d := soil.DampingDepth(c.k*1e-6, year)
		for _, at := range []struct{ z, ratio, lag float64 }{{0.05, c.ratio5, c.lag5}, {0.10, c.ratio10, c.lag10}} {
			u := at.z / d
			if got := math.Exp(-u); math.Abs(got-at.ratio) > 5e-6 {
				t.Errorf("κ %v, %v m: ratio %.6f, want %.5f", c.k, at.z, got, at.ratio)
			}
			if got := u * year / (2 * math.Pi); math.Abs(got-at.lag) > 5.1e-4 {
				t.Errorf("κ %v, %v m: lag %.4f days, want %.3f", c.k, at.z, got, at.lag)
			}
		}
	}
}

// Damping depths of soils, annual and daily, from conductivity over heat
// capacity of handbook tables (Moene and van Dam, Transport in the
// Atmosphere-Vegetation-Soil Continuum, table 2.2; annual waves of 365.25
// days, computed).
func TestSoilsOfAHandbook(t *testing.T) {
	for _, c := range []struct {
		name                               string
		conductivity, capacity             float64 // W/m/K, MJ/m³/K
		annual, daily, annualTol, dailyTol float64 // m
	}{
		{"sand, loose, dry", 0.24, 1.28, 1.372, 0.0718, 5e-4, 5e-5},
		{"sand, water 0.2", 2.1, 2.12, 3.154, 0.1651, 5e-4, 5.1e-5},
		{"sand, saturated", 2.5, 2.96, 2.913, 0.1524, 5e-4, 5e-5},
		{"clay, dry", 0.15, 1.43, 1.026, 0.0537, 5.1e-4, 5e-5},
		{"clay, water 0.2", 0.9, 2.27, 1.996, 0.1044, 5e-4, 5.1e-5},
		{"clay, saturated", 1.4, 3.10, 2.130, 0.1114, 5e-4, 5.1e-5},
		{"peat, dry", 0.04, 0.25, 1.268, 0.0663, 5e-4, 5e-5},
		{"peat, saturated", 0.50, 4.01, 1.119, 0.0586, 5e-4, 5e-5},
	} {
		k := c.conductivity / (c.capacity * 1e6)
		if got := soil.DampingDepth(k, 365.25); math.Abs(got-c.annual) > c.annualTol {
			t.Errorf("%s: annual %.5f m, want %.3f", c.name, got, c.annual)
		}
		if got := soil.DampingDepth(k, 1); math.Abs(got-c.daily) > c.dailyTol {
			t.Errorf("%s: daily %.6f m, want %.4f", c.name, got, c.daily)
		}
	}
	// √365.25 of the daily depth is the annual one; d·ln 20 leaves 5 %; after
	// one depth the annual wave is 58.1313 days late.
	d := soil.DampingDepth(0.5e-6, 365.25)
	if r := d / soil.DampingDepth(0.5e-6, 1); math.Abs(r-19.11151) > 5e-6 {
		t.Errorf("annual over daily %.6f, want 19.11151", r)
	}
	if lag := 365.25 / (2 * math.Pi); math.Abs(lag-58.1313) > 5e-5 {
		t.Errorf("lag at one depth %.5f days, want 58.1313", lag)
	}
}

// Points of T = 12 − 13·exp(−z/d)·cos(ω(t−20) − z/d) with κ = 0.5e-6 m²/s and
// 365.25 days (computed; the closed form of Hillel 1982). The year here has 365
// days, which moves them by a few thousandths.
func TestPointsOfTheClosedForm(t *testing.T) {
	days := []float64{20, 80, 110, 202.625}
	surface := wave(12, -13, 1, 2*math.Pi*20/365)
	for _, c := range []struct {
		z    float64
		want [4]float64
	}{
		{0, [4]float64{-1, 5.33128, 11.70651, 25}},
		{0.05, [4]float64{-0.71001, 5.23658, 11.42951, 24.71001}},
		{0.10, [4]float64{-0.42031, 5.15261, 11.16516, 24.42031}},
		{1, [4]float64{4.49402, 5.06728, 8.24069, 19.50598}},
		{2, [4]float64{8.65799, 6.72627, 7.77912, 15.34201}},
	} {
		got := *surface
		step := soil.NewConduction(0, soilDepth(c.z), 0.5e-6)
		step.Apply(&got)
		for i, day := range days {
			at := day * 365 / 365.25 // the same phase of the shorter year
			k := int(at)
			value := got[k] + (at-float64(k))*(got[(k+1)%365]-got[k])
			if math.Abs(value-c.want[i]) > 0.012 {
				t.Errorf("%v m, day %v: %.5f °C, want %.5f", c.z, day, value, c.want[i])
			}
		}
	}
}
