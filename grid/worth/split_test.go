package worth_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/worth"
)

func ExampleSeason_Second() {
	var s worth.Season
	s.FillWith(midwest(), spring, 24, worth.Usual(worth.Short), 11)
	first := season.Day(24).DaysTo(season.Date(4, 8))
	second, due := s.Second(first, worth.SecondRule{})
	split := worth.Split{First: first, Second: second, FirstDose: 0.5, SecondDose: 0.5}
	fmt.Printf("%v after %.0f days: whole %.0f %%, split %.0f %%\n", due, second-first, 100*s.At(first), 100*s.AtSplit(split))
	// Output: true after 48 days: whole 39 %, split 49 %
}

// A second application comes when the first has the wanted share left, and
// none when weeds are up by then.
func TestSecond(t *testing.T) {
	var s worth.Season
	for _, c := range []struct {
		name    string
		half    float64
		applied float64
		rule    worth.SecondRule
		due     bool
	}{
		{"short", worth.Short, 70, worth.SecondRule{}, true},
		{"medium, in February", worth.Medium, 20, worth.SecondRule{}, true},
		{"medium, in April", worth.Medium, 70, worth.SecondRule{}, false},
		{"long lasts", worth.Long, 70, worth.SecondRule{}, false},
		{"late", worth.Medium, 120, worth.SecondRule{}, false},
		{"late, but to the last weed", worth.Short, 120, worth.SecondRule{Until: 0.999}, true},
		{"a fifth is enough", worth.Medium, 70, worth.SecondRule{Below: 0.2}, false},
		{"after the season", worth.Short, 300, worth.SecondRule{}, false},
	} {
		s.FillWith(midwest(), spring, 24, worth.Usual(c.half), 11)
		days, due := s.Second(c.applied, c.rule)
		if due != c.due {
			t.Errorf("%s: due %v after %v days", c.name, due, days)
			continue
		}
		below := c.rule.Below
		if below == 0 {
			below = worth.DefaultBelow
		}
		if got := s.Remaining(c.applied, days); due && math.Abs(got-below) > 1e-4 {
			t.Errorf("%s: %.4f is left when the second is due, want %v", c.name, got, below)
		}
	}
	var none worth.Season
	if _, due := none.Second(0, worth.SecondRule{}); due {
		t.Error("a season without weeds wants a second application")
	}
}

// In soil at 20 °C a medium residual is at half after 60 days: extension
// services repeat after about 8 weeks (Kansas State University, March 2016)
// or 6 to 8 (NC State Extension, AG-763W).
func TestSecondIsDueAfterAboutEightWeeks(t *testing.T) {
	days, ok := worth.Usual(worth.Medium).Lasts(wave(20, 0, 1), 100, worth.DefaultBelow, 365)
	if !ok || days < 6*7 || days > 9*7 {
		t.Errorf("the second is due after %v days (%v), services say 6 to 8 weeks", days, ok)
	}
}

// slowSplit sums min(1, both strengths) over the weeds, hour by hour.
func slowSplit(s slow, p worth.Split) float64 {
	k1 := int((p.First + season.YearDays) * hours)
	k2 := int((p.Second + season.YearDays) * hours)
	sum := 0.0
	for k, stopped := range s.stopped {
		mid := (s.clock[k] + s.clock[k+1]) / 2
		strength := 0.0
		if k >= k1 {
			strength += p.FirstDose * math.Exp2(s.clock[k1]-mid)
		}
		if k >= k2 {
			strength += p.SecondDose * math.Exp2(s.clock[k2]-mid)
		}
		sum += stopped * math.Exp2(mid) * min(1, strength)
	}
	return sum / s.total
}

func TestSplitAgainstTheSum(t *testing.T) {
	for _, p := range places {
		c := crossing.Find(p.year, p.trigger)
		treatment := worth.Usual(worth.Medium)
		oracle := newSlow(p.year, p.trigger.Direction, c.Origin, treatment)
		var s worth.Season
		s.FillWith(p.year, p.trigger, c.Origin, treatment, 0)
		onset := math.Round(c.Origin.DaysTo(c.Day))
		for _, split := range []worth.Split{
			{First: onset - 40, Second: onset + 20, FirstDose: 0.5, SecondDose: 0.5},
			{First: onset - 40, Second: onset + 20, FirstDose: 1, SecondDose: 1},
			{First: onset - 10, Second: onset + 11, FirstDose: 1, SecondDose: 1},
			{First: onset, Second: onset + 70, FirstDose: 0.6, SecondDose: 0.9},
			{First: onset - 100, Second: onset + 5, FirstDose: 0.3, SecondDose: 0.2},
		} {
			if got, want := s.AtSplit(split), slowSplit(oracle, split); math.Abs(got-want) > 3e-4 {
				t.Errorf("%s, %+v: %.5f, the sum says %.5f", p.name, split, got, want)
			}
		}
	}
}

// One full dose is the plain treatment however it is called; two halves at
// once are one whole, but for what interpolation leaves past the season's end; a
// second dose never takes anything away.
func TestSplitProperties(t *testing.T) {
	var s worth.Season
	s.FillWith(midwest(), spring, 24, worth.Usual(worth.Short), 11)
	for first := 0.0; first < 200; first += 17 {
		whole := s.At(first)
		if got := s.AtSplit(worth.Split{First: first, Second: first, FirstDose: 0.5, SecondDose: 0.5}); math.Abs(got-whole) > 1e-6 {
			t.Errorf("two halves after %v days are worth %v, one whole %v", first, got, whole)
		}
		for second := first; second < 250; second += 31 {
			both := s.AtSplit(worth.Split{First: first, Second: second, FirstDose: 1, SecondDose: 1})
			if both < max(whole, s.At(second))-1e-3 || both > min(1, whole+s.At(second))+1e-3 {
				t.Errorf("full at %v and %v: %v; alone %v and %v", first, second, both, whole, s.At(second))
			}
		}
	}
}

// Remaining of a season is that of its treatment in the soil it was given.
func TestSeasonRemaining(t *testing.T) {
	var s worth.Season
	year := wave(15, 8, 205)
	origin := crossing.Find(year, spring).Origin
	s.FillWith(year, spring, origin, worth.Usual(worth.Medium), 11)
	for _, c := range []struct{ applied, later float64 }{{-30, 12}, {0, 60}, {100.5, 300}, {200, 42}} {
		want := worth.Usual(worth.Medium).Remaining(year, (origin + season.Day(c.applied)).In(), c.later)
		if got := s.Remaining(c.applied, c.applied+c.later); math.Abs(got-want) > 1e-12 {
			t.Errorf("%v days after %v: %v, want %v", c.later, c.applied, got, want)
		}
		// And worth before the season is worth later, weakened by it.
		if ratio := s.Remaining(0, 40); c.applied == 0 {
			s.FillWith(year, spring, origin, worth.Usual(worth.Medium), 0)
			if got := s.At(0) / s.At(40); math.Abs(got/ratio-1) > 2e-4 && s.Emerged(40) == 0 {
				t.Errorf("worth falls to %v over 40 days before the season, strength to %v", got, ratio)
			}
		}
	}
	if got := s.Remaining(100, 90); got != 1 {
		t.Errorf("before it is applied a treatment has %v of its strength, want 1", got)
	}
}
