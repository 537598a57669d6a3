package worth_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/season"
	"weekband/grid/worth"
)

func ExampleSeason_Second() {
	var s worth.Season
	s.FillWith(midwest(), spring, 24, worth.Usual(worth.Short), 11)
	first := season.Day(24).DaysTo(season.Date(4, 8))
	second, due := s.Second(first, worth.SecondRule{})
	fmt.Printf("%v after %.0f days\n", due, second-first)
	// Output: true after 48 days
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
		if !due {
			continue
		}
		if got := remaining(worth.Usual(c.half), midwest(), season.Day(24+c.applied), days-c.applied); math.Abs(got-below) > 1e-4 {
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
