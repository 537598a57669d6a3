package crossing_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/units"
)

// smooth is a Course without any soil.
type smooth struct{ curve.Curve }

func (c *smooth) Kinks() uint32 { return 0 }

// randomCurve returns a year from arctic to tropical, some with months far off
// a wave.
func randomCurve(rng *rand.Rand) *smooth {
	var months [12]units.Celsius
	mean, a, late := -5+35*rng.Float64(), 18*rng.Float64(), 365*rng.Float64()
	rough := []float64{0.2, 1, 4}[rng.IntN(3)]
	for m := range months {
		mid := 30.4*float64(m) + 15
		months[m] = units.Celsius(mean - a*math.Cos(2*math.Pi*(mid-late)/365) + rough*rng.NormFloat64())
	}
	return &smooth{curve.FromMonths(&months)}
}

// A crossing that is sought is the one that is found by looking at every day.
func TestSeekFindsWhatFindDoes(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 3))
	unclear, worst := 0, 0.0
	seen := map[crossing.Reason]int{}
	const n = 20000
	for i := range n {
		c := randomCurve(rng)
		var s curve.Sketch
		c.Sketch(&s)
		var year curve.Year
		c.Sample(&year)
		trigger := crossing.Trigger{Level: units.Celsius(4 + 18*rng.Float64()), Direction: crossing.Direction(i % 2)}
		got, ok := crossing.Seek(c, &s, trigger)
		if !ok {
			unclear++
			continue
		}
		want := crossing.Find(&year, trigger)
		seen[want.Reason]++
		if got.Reason != want.Reason {
			if flat := math.Abs(want.Slope - crossing.FlatSlope); want.Reason.Crosses() && got.Reason.Crosses() && flat < 1e-3 {
				continue
			}
			t.Fatalf("year %d, %+v: %v, want %v", i, trigger, got, want)
		}
		if !want.Reason.Crosses() {
			continue
		}
		off := math.Abs(float64(want.Day.Apart(got.Day)))
		if off*want.Slope > 2e-3 || off > 0.02 && want.Reason == crossing.Dated || math.Abs(got.Slope-want.Slope) > 0.02 {
			t.Fatalf("year %d, %+v: %v on %v, want %v on %v", i, trigger, got, float64(got.Day), want, float64(want.Day))
		}
		if want.Reason == crossing.Dated {
			worst = max(worst, off)
		}
	}
	if unclear > n/4 || seen[crossing.Dated] < n/4 || seen[crossing.Never] < n/50 || seen[crossing.Always] < n/50 || seen[crossing.Flat] < n/100 {
		t.Errorf("%d of %d unclear, the others %v", unclear, n, seen)
	}
	t.Logf("at most %.4f days off; %d of %d years unclear", worst, unclear, n)
}

func BenchmarkSeek(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	courses := make([]*smooth, 500)
	sketches := make([]curve.Sketch, len(courses))
	for i := range courses {
		courses[i] = randomCurve(rng)
		courses[i].Sketch(&sketches[i])
	}
	trigger := crossing.Trigger{Level: celsius(b, "55 °F"), Direction: crossing.Warming}
	i := 0
	for b.Loop() {
		crossing.Seek(courses[i], &sketches[i], trigger)
		i = (i + 1) % len(courses)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}

// The extremes are those of all days.
func TestExtremesAreThoseOfAllDays(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	other := 0
	const n = 5000
	for range n {
		c := randomCurve(rng)
		var s curve.Sketch
		c.Sketch(&s)
		var year curve.Year
		c.Sample(&year)
		coldest, warmest := crossing.Extremes(c, &s)
		want := crossing.Find(&year, crossing.Trigger{Direction: crossing.Warming})
		if math.Abs(float64(coldest.At-want.Coldest)) > 1e-4 || math.Abs(float64(warmest.At-want.Warmest)) > 1e-4 {
			t.Fatalf("%v to %v, want %v to %v", coldest, warmest, want.Coldest, want.Warmest)
		}
		if math.Abs(want.Origin.Apart(coldest.Day)) > 1 || math.Abs(want.Summit.Apart(warmest.Day)) > 1 {
			other++
		}
	}
	if other > 0 {
		t.Errorf("%d of %d years have other days", other, n)
	}
}

func BenchmarkExtremes(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	c := randomCurve(rng)
	var s curve.Sketch
	c.Sketch(&s)
	for b.Loop() {
		crossing.Extremes(c, &s)
	}
}
