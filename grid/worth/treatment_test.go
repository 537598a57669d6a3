package worth_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
	"weekband/grid/worth"
)

func ExampleTreatment_Lasts() {
	medium := worth.Usual(worth.Medium)
	winter, _ := medium.Lasts(midwest(), season.Date(1, 1), 0.5, 365)
	summer, _ := medium.Lasts(midwest(), season.Date(7, 1), 0.5, 365)
	fmt.Printf("half is left %.0f days after 1 January, %.0f after 1 July\n", winter, summer)
	// Output: half is left 148 days after 1 January, 44 after 1 July
}

// remaining is the share of its strength that an application still has so many
// days later, day by day from the half-life in the soil of its middle.
func remaining(t worth.Treatment, year *curve.Year, applied season.Day, days float64) float64 {
	lives := 0.0
	for from, end := applied, applied+season.Day(days); from < end; {
		to := min(season.Day(math.Floor(float64(from))+1), end)
		lives += float64(to-from) / t.HalfLifeAt(units.Celsius(year.At((from+to)/2)))
		from = to
	}
	return math.Exp2(-lives)
}

// First-order decay, C = C0·0.5^(t/half-life): k in 1/d and what is left after
// 30, 60, 90 and 120 days, computed from the textbook formula.
func TestDecayTable(t *testing.T) {
	for _, c := range []struct {
		half, k float64
		left    [4]float64
	}{
		{17, 0.04077, [4]float64{0.294, 0.087, 0.025, 0.008}},
		{23, 0.03014, [4]float64{0.405, 0.164, 0.066, 0.027}},
		{35, 0.01980, [4]float64{0.552, 0.305, 0.168, 0.093}},
		{44, 0.01575, [4]float64{0.623, 0.389, 0.242, 0.151}},
		{60, 0.01155, [4]float64{0.707, 0.500, 0.354, 0.250}},
		{90, 0.00770, [4]float64{0.794, 0.630, 0.500, 0.397}},
		{120, 0.00578, [4]float64{0.841, 0.707, 0.595, 0.500}},
	} {
		plain := worth.Treatment{HalfLife: c.half}
		if k := -math.Log(remaining(plain, midwest(), 100, 1)); math.Abs(k-c.k) > 5.1e-6 {
			t.Errorf("half-life %v: k = %.6f, want %v", c.half, k, c.k)
		}
		for i, want := range c.left {
			got := remaining(plain, midwest(), 340.3, 30*float64(i+1)) // over New Year
			if math.Abs(got-want) > 5.1e-4 {
				t.Errorf("half-life %v, %d days: %.4f, want %v", c.half, 30*(i+1), got, want)
			}
		}
	}
}

// Q10 of the pairs measured: pendimethalin 98 d at 30 °C and 409 d at 10 °C
// (Walker and Bond 1977, quoted in a field study of garlic) gives 2.043, the
// same 19.4 d at 35 °C and 23.9 d at 25 °C (Malaysian soil) 1.23, S-metolachlor
// 23.7 d at 35 °C and 64.8 d at 10 °C 1.50. With that Q10 the half-life at one
// temperature follows from that at the other.
func TestMeasuredPairs(t *testing.T) {
	for _, c := range []struct {
		warm, cold          units.Celsius
		halfWarm, halfCold  float64
		q10, within, halves float64
	}{
		{30, 10, 98, 409, 2.043, 0.0005, 0.2}, {35, 25, 19.4, 23.9, 1.23, 0.005, 0.05}, {35, 10, 23.7, 64.8, 1.50, 0.005, 0.6},
	} {
		q10 := math.Pow(c.halfCold/c.halfWarm, 10/float64(c.warm-c.cold))
		if math.Abs(q10-c.q10) > c.within {
			t.Errorf("Q10 of %v and %v days is %.4f, want %v", c.halfCold, c.halfWarm, q10, c.q10)
		}
		treatment := worth.Treatment{HalfLife: c.halfWarm, Q10: c.q10, Reference: c.warm}
		if got := treatment.HalfLifeAt(c.cold); math.Abs(got-c.halfCold) > c.halves {
			t.Errorf("half-life at %v is %.1f days, measured %v", c.cold, got, c.halfCold)
		}
	}
}

// Between 10 and 20 °C the law of Arrhenius with 65.4 kJ/mol and that of Q10
// with 2.58 agree: the two forms in which EFSA (2007) states its default (from
// memory).
func TestArrhenius(t *testing.T) {
	treatment := worth.Treatment{HalfLife: 60, Q10: 2.58}
	for _, soil := range []units.Celsius{10, 12, 15, 18, 20} {
		arrhenius := 60 * math.Exp(65400/8.314*(1/(float64(soil)+273.15)-1/293.15))
		if got := treatment.HalfLifeAt(soil); math.Abs(got/arrhenius-1) > 0.01 {
			t.Errorf("half-life at %v is %.1f days, by Arrhenius %.1f", soil, got, arrhenius)
		}
	}
}

func TestZeroAndBounds(t *testing.T) {
	for _, c := range []struct {
		name      string
		treatment worth.Treatment
		soil      units.Celsius
		want      float64
	}{
		{"no Q10", worth.Treatment{HalfLife: 60}, 3, 60},
		{"Q10 of 1", worth.Treatment{HalfLife: 60, Q10: 1}, 3, 60},
		{"reference is 20 °C", worth.Treatment{HalfLife: 60, Q10: 2}, 20, 60},
		{"10 K colder", worth.Usual(60), 10, 120},
		{"freezing", worth.Usual(60), 0, 240},
		{"frozen", worth.Usual(60), -15, 240},
		{"10 K warmer", worth.Usual(60), 30, 30},
		{"hotter than Warmest", worth.Usual(60), 60, 60 * math.Pow(2, -2.5)},
		{"zero value", worth.Treatment{}, 10, 0},
	} {
		if got := c.treatment.HalfLifeAt(c.soil); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: half-life %v days, want %v", c.name, got, c.want)
		}
	}
	if got := remaining(worth.Treatment{}, midwest(), 1, 0.1); got != 0 {
		t.Errorf("a treatment without half-life still has %v of its strength", got)
	}
	var s worth.Season
	s.FillWith(midwest(), spring, 24, worth.Treatment{}, 11)
	if got := s.At(100); got > 1e-3 {
		t.Errorf("a treatment without half-life is worth %v", got)
	}
}

// What Lasts finds remains, and is the half-lives' sum in soil of one
// temperature: two of 120 days each at 10 °C.
func TestLasts(t *testing.T) {
	medium := worth.Usual(worth.Medium)
	for _, share := range []float64{1, 0.9, 0.5, 0.1} {
		days, ok := medium.Lasts(midwest(), 330.25, share, 1000)
		if got := remaining(medium, midwest(), 330.25, days); !ok || math.Abs(got-share) > 1e-4 {
			t.Errorf("after %v days (%v) %v is left, want %v", days, ok, got, share)
		}
	}
	var mild curve.Year
	for i := range mild {
		mild[i] = 10
	}
	if days, ok := medium.Lasts(&mild, 50, 0.25, 1000); !ok || math.Abs(days-240) > 1e-6 {
		t.Errorf("a quarter is left after %v days (%v), want 240", days, ok)
	}
	if days, ok := medium.Lasts(&mild, 50, 0.25, 239); ok {
		t.Errorf("found a quarter left after %v days, looking for 239", days)
	}
}
