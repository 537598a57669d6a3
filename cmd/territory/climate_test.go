package main

import (
	"math"
	"testing"

	"weekband/grid"
)

// Against a sum over a thousand moments, the slow obvious method.
func TestMonthWaveIsTheMean(t *testing.T) {
	for m, span := range map[int][2]float64{0: {0, 31}, 1: {31, 59}, 11: {334, 365}} {
		for n := 1; n <= 2; n++ {
			sum := 0.0
			for k := range 1000 {
				day := span[0] + (span[1]-span[0])*(float64(k)+0.5)/1000
				sum += math.Cos(2 * math.Pi * float64(n) * (day - 25) / 365)
			}
			if got := monthWave(m, n, 25); math.Abs(got-sum/1000) > 1e-6 {
				t.Errorf("month %d, wave %d: %.8f, want %.8f", m+1, n, got, sum/1000)
			}
		}
	}
}

// Each habit of the climate, all else equal.
func TestClimateHabits(t *testing.T) {
	base := site{at: grid.LonLat{Lon: -48, Lat: 35}, height: 50, inland: 0.5}
	north, high, deep := base, base, base
	north.at.Lat = 39
	high.height = 1050
	deep.inland = 0.95
	b, n, h, d := base.months(), north.months(), high.months(), deep.months()
	for m := range b {
		if n[m] >= b[m] && m < 5 {
			t.Errorf("month %d is not colder in the north: %.2f, %.2f", m+1, n[m], b[m])
		}
		if fall := b[m] - h[m]; fall < 3.5 || fall > 8 {
			t.Errorf("month %d falls %.2f K in a kilometre; want 3.5 to 8", m+1, fall)
		}
	}
	if d[0] >= b[0] || d[6] <= b[6] {
		t.Errorf("inland January %.1f and July %.1f are not further apart than %.1f and %.1f", d[0], d[6], b[0], b[6])
	}
}
