package worth_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/worth"

	"pgregory.net/rapid"
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
	s.FillWith(midwest(), spring, 24, worth.Usual(worth.Medium), 0)
	crossed := season.Day(24).DaysTo(crossing.Find(midwest(), spring).Day)
	fmt.Printf("on the crossing %.0f %%, five weeks later %.0f %%\n", 100*s.At(crossed), 100*s.At(crossed+35))
	// Output: on the crossing 71 %, five weeks later 51 %
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

// The raw curve, before the little it holds at 0 is taken off, has the shares
// computed for it to four digits: 0.046 % at 42, 0.158 % at 52 and 1.664 % at
// 78 degree-days, where Fidanza, Dernoeden and Zhang 1996 saw the first
// crabgrass in their three years.
func TestRawGompertz(t *testing.T) {
	e := worth.Summer
	none := math.Exp(-e.A)
	for d, want := range map[float64]float64{42: 0.046, 52: 0.158, 78: 1.664, 140: 25, 185: 53.18, 230: 75, 300: 91.88} {
		if got := 100 * (e.Share(d)*(1-none) + none); math.Abs(got-want) > 0.5*math.Pow(10, math.Floor(math.Log10(want))-3)+0.0005 {
			t.Errorf("raw share at %v degree-days is %.4f %%, want %v", d, got, want)
		}
	}
}

// Soil that is always at the base lies DayToDay/√(2π) past it on average: 0.798
// of 2 K, so that 140 degree-days are up after 175.5 days; and 0.638 of 1.6 K.
// At 6 K and more below there are no weeds.
func TestSoilAtTheBase(t *testing.T) {
	for d, perDay := range map[crossing.Direction]float64{crossing.Warming: 0.79788, crossing.Cooling: 0.63831} {
		e := worth.For(d)
		var year, cold curve.Year
		for i := range year {
			year[i], cold[i] = e.Base, e.Base-6.1
			if d == crossing.Cooling {
				cold[i] = e.Base + 6.1
			}
		}
		var s worth.Season
		s.FillWith(&year, crossing.Trigger{Level: 12, Direction: d}, 1, worth.Treatment{HalfLife: 60}, 0)
		for days := 60.0; days < 365; days += 40 {
			got, want := s.Emerged(days), e.Share(days*perDay)/e.Share(365*perDay)
			if math.Abs(got-want) > 2e-5 {
				t.Errorf("%v: %.5f are up after %v days, want %.5f", d, got, days, want)
			}
		}
		s.FillWith(&cold, crossing.Trigger{Level: 12, Direction: d}, 1, worth.Treatment{HalfLife: 60}, 0)
		if got := s.Emerged(365); got != 0 {
			t.Errorf("%v: %v are up where soil is never near the base", d, got)
		}
	}
}

// With all weeds coming up on one day, day 199 of the year, a first-order
// residual in soil of one temperature leaves 0.5^(days/half-life) at its noon:
// 0.707 and 0.500 for 60 days after 30 and 60.
func TestAllOnOneDayIsPlainDecay(t *testing.T) {
	var year curve.Year
	year[199] = 12 + 2000
	for _, half := range []float64{30, 60, 120} {
		var s worth.Season
		s.FillWith(&year, crossing.Trigger{Level: 12, Direction: crossing.Warming}, 1, worth.Treatment{HalfLife: half}, 0)
		if s.Emerged(198) != 0 || s.Emerged(199) != 1 {
			t.Fatalf("%v are up at the day's beginning, %v at its end", s.Emerged(198), s.Emerged(199))
		}
		for _, before := range []float64{30, 60, 90, 120, 250} {
			got, want := s.At(198.5-before), math.Exp2(-before/half)
			if math.Abs(got/want-1) > 1e-4 {
				t.Errorf("half-life %v, %v days before: %.5f, want %.5f", half, before, got, want)
			}
		}
		if got := s.At(199); got != 0 {
			t.Errorf("after all are up an application is worth %v, want 0", got)
		}
	}
}

// In soil of one temperature before the season, worth falls backward as a
// plain exponential with the half-life at that temperature: 60 days at 20 °C
// and Q10 2 are 120 days at 10 °C, 240 at 0 °C, and no more in frost.
func TestConstantSoilDecaysExponentially(t *testing.T) {
	for _, c := range []struct{ soil, half float64 }{{10, 120}, {0, 240}, {-8, 240}} {
		var year curve.Year
		for i := range year {
			year[i] = c.soil
			if i >= 200 && i < 300 {
				year[i] = 25
			}
		}
		var s worth.Season
		s.FillWith(&year, spring, 1, worth.Usual(worth.Medium), 0)
		for _, days := range []float64{-60, 10, 100.5, 180} {
			got, want := s.At(days)/s.At(190), math.Exp2((days-190)/c.half)
			if math.Abs(got/want-1) > 2e-4 {
				t.Errorf("soil of %v °C: worth after %v days is %.5f of that after 190, want %.5f", c.soil, days, got, want)
			}
		}
	}
}

func TestWorthIsAShareAndFallsAtTheEnd(t *testing.T) {
	for _, half := range []float64{worth.Short, worth.Medium, worth.Long} {
		var s worth.Season
		s.FillWith(midwest(), spring, 24, worth.Usual(half), 11)
		peak := 0.0
		for d := -400.0; d < 400; d++ {
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
		best, most := s.Best()
		if most < peak || math.Abs(s.At(best)-most) > 1e-12 || s.Emerged(best) > 0.5 {
			t.Errorf("half-life %v: best %v after %v days, yet %v is seen", half, most, best, peak)
		}
	}
}

// LastAbove is where a plain scan by the minute, backward, finds worth at the
// floor; and nothing is where worth never reaches it.
func TestLastAboveAgainstAScan(t *testing.T) {
	for _, p := range places {
		for _, spread := range []float64{0, 4, 11, 45} {
			for _, floor := range []float64{0.05, 0.25, 0.5, 0.9} {
				var s worth.Season
				c := crossing.Find(p.year, p.trigger)
				s.FillWith(p.year, p.trigger, c.Origin, worth.Usual(worth.Medium), spread)
				from := c.Origin.DaysTo(c.Day)
				want := 365.0
				for want > from && s.At(want) < floor {
					want -= 0.02
				}
				got, ok := s.LastAbove(floor, from)
				switch {
				case !ok && want > from:
					t.Errorf("%s, spread %v: worth last %v after %v days, not found", p.name, spread, floor, want)
				case ok && got > from && math.Abs(s.At(got)-floor) > 1e-4:
					t.Errorf("%s, spread %v: worth is %v after %v days, want %v", p.name, spread, s.At(got), got, floor)
				case ok && math.Abs(got-want) > 0.03:
					t.Errorf("%s, spread %v: worth last %v after %v days, a scan says %v", p.name, spread, floor, got, want)
				}
			}
		}
	}
	var s worth.Season
	s.FillWith(midwest(), spring, 24, worth.Treatment{HalfLife: worth.Medium}, 11)
	if got, ok := s.LastAbove(0, 90); !ok || got != 365 {
		t.Errorf("worth is at least 0 until %v (%v), want the end of the season", got, ok)
	}
}

// A longer residual is never worth less, warmer soil before the season never
// more, and once all weeds are up in the latest year worth is 0.
func TestProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := places[rapid.IntRange(0, len(places)-1).Draw(t, "place")]
		origin := crossing.Find(p.year, p.trigger).Origin
		half := rapid.Float64Range(10, 300).Draw(t, "half-life")
		q10 := rapid.Float64Range(1, 3).Draw(t, "Q10")
		spread := rapid.Float64Range(0, 45).Draw(t, "spread")
		days := rapid.Float64Range(-200, 365).Draw(t, "days")
		longer := half * rapid.Float64Range(1, 4).Draw(t, "longer")

		var a, b worth.Season
		a.FillWith(p.year, p.trigger, origin, worth.Treatment{HalfLife: half, Q10: q10}, spread)
		b.FillWith(p.year, p.trigger, origin, worth.Treatment{HalfLife: longer, Q10: q10}, spread)
		if a.At(days) > b.At(days)+1e-6 {
			t.Fatalf("%s: half-life %v is worth %v, %v only %v", p.name, half, a.At(days), longer, b.At(days))
		}
		if days+1.65*spread < 0 { // every one of the ten years' treatments waits in soil before the season
			colder := *p.year
			for i := range 150 {
				k := (int(origin) - 1 - i + 364) % season.YearDays
				colder[k] -= 3
			}
			b.FillWith(&colder, p.trigger, origin, worth.Treatment{HalfLife: half, Q10: q10}, spread)
			if b.At(days) < a.At(days)-1e-6 && p.trigger.Direction == crossing.Warming {
				t.Fatalf("%s: colder soil before the season lowers worth after %v days from %v to %v", p.name, days, a.At(days), b.At(days))
			}
		}
		if v := a.At(365 + 1.65*spread); v != 0 {
			t.Fatalf("%s: worth %v after the season", p.name, v)
		}
	})
}

// A spread of 0 is the normal year, and the limit of small spreads.
func TestNoSpreadIsTheNormalYear(t *testing.T) {
	var none, little worth.Season
	none.FillWith(midwest(), spring, 24, worth.Usual(worth.Medium), 0)
	little.FillWith(midwest(), spring, 24, worth.Usual(worth.Medium), 1e-6)
	for d := -300.0; d < 365; d += 7.3 {
		if a, b := none.At(d), little.At(d); math.Abs(a-b) > 1e-7 {
			t.Errorf("after %v days %v without spread, %v with next to none", d, a, b)
		}
	}
}

// A Season that is used again gives what a fresh one gives.
func TestReuse(t *testing.T) {
	var used worth.Season
	for _, p := range append(places, places...) {
		for _, treatment := range treatments {
			var fresh worth.Season
			origin := crossing.Find(p.year, p.trigger).Origin
			used.FillWith(p.year, p.trigger, origin, treatment, 11)
			fresh.FillWith(p.year, p.trigger, origin, treatment, 11)
			used.At(130) // in another order
			for d := -200.0; d < 400; d += 13.7 {
				if a, b := used.At(d), fresh.At(d); a != b {
					t.Fatalf("%s after %v days: %v, fresh %v", p.name, d, a, b)
				}
			}
		}
	}
}

// A year too cold for any degree-day has no worth rather than a division by
// zero.
func TestNoSeason(t *testing.T) {
	var cold curve.Year
	var s worth.Season
	s.FillWith(&cold, spring, 1, worth.Treatment{HalfLife: worth.Medium}, 11)
	if v := s.At(100); v != 0 {
		t.Errorf("worth %v in a year without a season", v)
	}
	if _, ok := s.LastAbove(0.25, 0); ok {
		t.Error("a year without a season has a last worthwhile day")
	}
}

// BenchmarkFill is what a cell of a map costs: its season and the end of
// catching up.
func BenchmarkFill(b *testing.B) {
	year := midwest()
	var s worth.Season
	for b.Loop() {
		s.FillWith(year, spring, 24, worth.Usual(worth.Medium), 11)
		s.LastAbove(0.25, 90)
	}
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "cells/s")
}

// BenchmarkCosts is what the numbers of a page cost, once its season is there.
func BenchmarkCosts(b *testing.B) {
	year := midwest()
	var s worth.Season
	s.FillWith(year, spring, 24, worth.Usual(worth.Medium), 11)
	for b.Loop() {
		s.Costs(worth.Borders{AheadFrom: 73, OntimeFrom: 94, OntimeTo: 120, CatchupTo: 165})
	}
}
