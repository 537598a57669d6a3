package curve_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

// near0 returns years of twelve months about 0 °C, smooth to rough.
func near0(rng *rand.Rand) curve.Curve {
	var months [12]units.Celsius
	mean, a, late := 6*rng.NormFloat64(), 15*rng.Float64(), 365*rng.Float64()
	rough := []float64{0, 0.5, 3}[rng.IntN(3)]
	for m := range months {
		mid := 30.4*float64(m) + 15
		months[m] = units.Celsius(mean - a*math.Cos(2*math.Pi*(mid-late)/365) + rough*rng.NormFloat64())
	}
	return curve.FromMonths(&months)
}

// Zeros are those that steps of a twentieth of a day find, to 0.02 days or
// 0.01 K, but for passes there and back, which may be left out in pairs.
func TestZerosAgainstSmallSteps(t *testing.T) {
	rng := rand.New(rand.NewPCG(273, 15))
	all, left := 0, 0
	for i := range 300 {
		c := near0(rng)
		var s curve.Sketch
		c.Sketch(&s)
		var zeros [2 * curve.Order]float64
		n := c.Zeros(&s, c.Bulge(), &zeros)

		var want []float64
		const step = 0.05
		before := float64(c.At(1))
		for k := 1; k <= season.YearDays/step; k++ {
			here := float64(c.At(season.Day(1 + float64(k)*step)))
			if (before < 0) != (here < 0) {
				want = append(want, (float64(k)-here/(here-before))*step)
			}
			before = here
		}
		all, left = all+len(want), left+len(want)-n
		if n > len(want) || (len(want)-n)%2 != 0 {
			t.Fatalf("year %d: %v, want %v", i, zeros[:n], want)
		}
		next := 0
		for _, z := range zeros[:n] {
			for next < len(want) && math.Abs(want[next]-z) > 0.02 && math.Abs(float64(c.At(season.Day(1+z)))) > 0.01 {
				next++
			}
			if next == len(want) {
				t.Fatalf("year %d: %v is none of %v", i, z, want)
			}
			next++
		}
	}
	if all < 300 || left > all/50 {
		t.Errorf("%d of %d zeros were left out", left, all)
	}
}

// What a Sketch tells of itself is what looking at every moment tells.
func TestSketchTellsItsMoments(t *testing.T) {
	rng := rand.New(rand.NewPCG(32, 1))
	for range 200 {
		c := wild(rng)
		var s curve.Sketch
		c.Sketch(&s)
		low, high := math.Inf(1), math.Inf(-1)
		for _, v := range s {
			low, high = min(low, v), max(high, v)
		}
		// The last bits carry the moment: of two temperatures alike to 1e-13
		// either may count as the lowest.
		if l, h := s.Range(); math.Abs(l-low) > 1e-11 || math.Abs(h-high) > 1e-11 {
			t.Fatalf("range %v to %v, want %v to %v", l, h, low, high)
		}
		level, by := 20*rng.NormFloat64(), 5*rng.Float64()
		under, deep, shallow := s.Under(level), uint32(0), uint32(0)
		for j, v := range s {
			if (v < level) != (under>>j&1 == 1) {
				t.Fatalf("moment %d at %v: under %v is %v", j, v, level, under>>j&1)
			}
			if v < level-by {
				deep |= 1 << j
			}
			if v < level+by {
				shallow |= 1 << j
			}
		}
		if d, s := s.Around(level, by); d != deep || s != shallow {
			t.Fatalf("around %v by %v: %032b, %032b, want %032b, %032b", level, by, d, s, deep, shallow)
		}
	}
}

// A cosine of 10 K about 12 °C is coldest at 2 °C, whenever that is.
func TestLowestOfASketch(t *testing.T) {
	for day := range season.YearDays {
		x := 2 * math.Pi * (float64(day) + 0.3) / season.YearDays
		c := curve.Curve{Mean: 12}
		c.Cos[0], c.Sin[0] = -10*math.Cos(x), -10*math.Sin(x)
		var s curve.Sketch
		c.Sketch(&s)
		if got := s.Lowest(); math.Abs(got-2) > 0.01 {
			t.Fatalf("coldest on day %d: %v, want 2", day, got)
		}
	}
}

// About is the curve, to what it bends from a parabola within a day.
func TestAboutIsTheCurve(t *testing.T) {
	c := curve.FromMonths(&epstein)
	for at := 0.0; at < season.YearDays; at += 0.37 {
		if got, want := c.About(at), float64(c.At(season.Day(1+at))); math.Abs(got-want) > 1e-4 {
			t.Fatalf("day %v: %v, want %v", at, got, want)
		}
	}
}

// A year that rises by 1 K a day, and falls on its last: straight between days,
// over New Year too.
func TestYearBetweenDays(t *testing.T) {
	var y curve.Year
	for i := range y {
		y[i] = float64(i)
	}
	for day, want := range map[season.Day]float64{1: 0, 1.25: 0.25, 31.5: 30.5, 365: 364, 365.5: 182, 0.5: 182, 366: 0, 397.5: 31.5} {
		if got := y.At(day); math.Abs(got-want) > 1e-9 {
			t.Errorf("day %v: %v, want %v", float64(day), got, want)
		}
	}
	means := y.MonthMeans() // of a straight line: the middle of the month
	if means[0] != 15.5 || means[1] != 45 {
		t.Errorf("January and February have %v and %v, want 15.5 and 45", means[0], means[1])
	}
	y.Shift(2)
	if y[0] != 2 || y[364] != 366 {
		t.Errorf("2 K warmer it runs from %v to %v", y[0], y[364])
	}
}
