package soil_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/units"
)

// randomAir returns a year of air, from arctic to tropical, some with months
// far off a wave.
func randomAir(rng *rand.Rand) curve.Curve {
	var months [12]units.Celsius
	mean, a, late := -15+45*rng.Float64(), 32*rng.Float64(), 365*rng.Float64()
	rough := []float64{0, 0.2, 1, 4}[rng.IntN(4)]
	for m := range months {
		mid := 30.4*float64(m) + 15
		months[m] = units.Celsius(mean - a*math.Cos(2*math.Pi*(mid-late)/365) + rough*rng.NormFloat64())
	}
	return curve.FromMonths(&months)
}

func randomOffset(rng *rand.Rand) soil.Offset {
	return soil.Offset{Mean: 2 * rng.NormFloat64(), Cos1: rng.NormFloat64(), Sin1: rng.NormFloat64(), Cos2: rng.NormFloat64(), Sin2: rng.NormFloat64()}
}

// slowly works out soil by small steps: air is taken as straight over a
// twentieth of a day, in which the lag is exact.
func slowly(m soil.Model, air *curve.Curve) *curve.Year {
	const parts, n = 20, season.YearDays * 20
	felt := make([]float64, n)
	for i := range felt {
		felt[i] = float64(air.At(season.Day(1 + float64(i)/parts)))
		if felt[i] < 0 {
			felt[i] *= m.Frozen
		}
	}
	x := func(i int) float64 { return felt[i%n] }
	var out curve.Year
	tau, decay := m.Lag*parts, 0.0
	if m.Lag > 0 {
		decay = math.Exp(-1 / tau)
	}
	y := x(0)
	for i := range 5 * n { // four years of run-up
		if i >= 4*n && (i-4*n)%parts == 0 {
			out[(i-4*n)/parts] = y
			if m.Lag == 0 {
				out[(i-4*n)/parts] = x(i)
			}
		}
		if m.Lag > 0 {
			behind := tau * (x(i+1) - x(i))
			y = x(i+1) - behind + (y-x(i)+behind)*decay
		}
	}
	o := m.Offset
	for i := range out {
		w := 2 * math.Pi * float64(i) / season.YearDays
		out[i] += o.Mean + o.Cos1*math.Cos(w) + o.Sin1*math.Sin(w) + o.Cos2*math.Cos(2*w) + o.Sin2*math.Sin(2*w)
	}
	return &out
}

// A course is what small steps come to, whatever the year, and its moments are
// on it.
func TestCourseAgainstSmallSteps(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 3))
	kinds := map[string]int{}
	for n := range 100 {
		m := soil.Model{Lag: soil.DefaultLag, Frozen: soil.DefaultFrozen, Offset: randomOffset(rng)}
		switch n % 10 {
		case 7:
			m.Lag, m.Frozen = 0.5, 0
		case 8:
			m.Lag, m.Frozen = 0, 0.3
		case 9:
			m.Lag, m.Frozen = 60, 0.5
		}
		air := randomAir(rng)
		var s curve.Sketch
		air.Sketch(&s)
		var zeros [2 * curve.Order]float64
		kinds[[]string{"never or always frozen", "one frost", "several frosts", "several frosts", "several frosts"}[min(air.Zeros(&s, air.Bulge(), &zeros)/2, 4)]]++
		var c soil.Course
		m.Response().Course(&air, &s, &m.Offset, &c)
		want := slowly(m, &air)
		for day := range want {
			if off := math.Abs(c.On(day) - want[day]); off > 3e-3 {
				t.Fatalf("year %d, model %+v, day %d: %v, want %v", n, m, day+1, c.On(day), want[day])
			}
		}
		var fine curve.Fine
		c.Sketch(&s)
		c.Fine(&fine)
		for j, v := range fine {
			x := float64(j) * curve.FineStep
			if d := int(x); float64(d) == x && math.Abs(v-c.On(d)) > 1e-6 {
				t.Fatalf("fine moment %d: %v, want %v", j, v, c.On(d))
			}
			// Between days the year bends by little, but for kinks.
			if day := want.At(season.Day(1 + x)); math.Abs(v-day) > 0.05 {
				t.Fatalf("fine moment %d: %v, its days say %v", j, v, day)
			}
			if j%3 == 0 && math.Abs(s[j/3]-v) > 1e-9 {
				t.Fatalf("moment %d of the sketch: %v, want %v", j/3, s[j/3], v)
			}
		}
	}
	for what, n := range map[string]int{"never or always frozen": 10, "one frost": 30, "several frosts": 8} {
		if kinds[what] < n {
			t.Errorf("only %d years of kind %s", kinds[what], what)
		}
	}
}

// Apply takes air as straight over whole days, also where it passes 0 °C within
// one, at up to 1.5 K a day in the roughest of these years: that is all the
// course differs by.
func TestCourseAgainstApply(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 1))
	for range 300 {
		m := soil.Default
		m.Offset = randomOffset(rng)
		air := randomAir(rng)
		var s curve.Sketch
		air.Sketch(&s)
		var c soil.Course
		m.Response().Course(&air, &s, &m.Offset, &c)
		var year curve.Year
		air.Sample(&year)
		m.Apply(&year, &year)
		for day, want := range year {
			if off := math.Abs(c.On(day) - want); off > 0.06 {
				t.Fatalf("day %d: %v, day by day %v", day+1, c.On(day), want)
			}
		}
		var fine curve.Fine
		c.Fine(&fine)
		want := year.MonthMeans()
		for i, mean := range c.MonthMeans(&fine) {
			if off := math.Abs(float64(mean - want[i])); off > 0.06 {
				t.Fatalf("month %d: %v, day by day %v", i+1, mean, want[i])
			}
		}
	}
}

// Days within a step never lie further off its ends than Bulge says, but below
// around the kinks; and without kinks allowed for, some would.
func TestCourseBulges(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	r := soil.Default.Response()
	spared, frozen := 0, 0
	for range 1000 {
		air, offset := randomAir(rng), randomOffset(rng)
		var s curve.Sketch
		air.Sketch(&s)
		var c soil.Course
		r.Course(&air, &s, &offset, &c)
		c.Sketch(&s)
		kinks := c.Kinks()
		if kinks != 0 {
			frozen++
		}
		for day := range season.YearDays {
			j := int(float64(day) / curve.SketchStep)
			a, b := s[j], s[(j+1)%len(s)]
			if up := c.On(day) - max(a, b); up > c.Bulge() {
				t.Fatalf("day %d lies %v K above its step, bound %v", day+1, up, c.Bulge())
			}
			down := min(a, b) - c.On(day)
			if down <= c.Bulge() {
				continue
			}
			if kinks>>j&1 == 0 {
				t.Fatalf("day %d lies %v K below its step, bound %v", day+1, down, c.Bulge())
			}
			spared++
		}
	}
	if spared == 0 || frozen < 300 {
		t.Errorf("%d days lie deeper around kinks, in %d years with frost", spared, frozen)
	}
}

func BenchmarkCourse(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 1))
	airs := make([]curve.Curve, 500)
	offsets := make([]soil.Offset, len(airs))
	for i := range airs {
		airs[i], offsets[i] = randomAir(rng), randomOffset(rng)
	}
	r := soil.Default.Response()
	var s curve.Sketch
	var c soil.Course
	i := 0
	for b.Loop() {
		airs[i].Sketch(&s)
		r.Course(&airs[i], &s, &offsets[i], &c)
		c.Sketch(&s)
		i = (i + 1) % len(airs)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}
