package spread_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid/spread"
)

func ExampleEarlyBy() {
	fmt.Printf("%.1f days\n", spread.EarlyBy(spread.Default))
	// Output: 14.1 days
}

// σ_date = σ_T/slope for the sinusoid cases at 10 cm: slopes 0.2292, 0.1832
// and 0.0435 K/d, σ_T 1.5 K give 6.5, 8.2 and 34.5 days (computed; the theory
// is plain error propagation). The factor 1.1 is ours.
func TestFromSlope(t *testing.T) {
	for _, c := range []struct{ slope, want float64 }{{0.2292, 6.5}, {0.1832, 8.2}, {0.0435, 34.5}} {
		if got := spread.FromSlope(1.5, c.slope); math.Abs(got-1.1*c.want) > 0.08 {
			t.Errorf("slope %v: %.2f days, want %.2f", c.slope, got, 1.1*c.want)
		}
	}
	if got := spread.FromSlope(3, 0.01); got != spread.Longest {
		t.Errorf("a flat curve gives %v days, want the bound %v", got, spread.Longest)
	}
}

// A spread of 23 days between the 10 % and 90 % quantiles is a standard
// deviation of 8.97 days (computed from the normal distribution).
func TestEarlyByIsADecile(t *testing.T) {
	if got := 2 * spread.EarlyBy(8.97); math.Abs(got-23) > 0.02 {
		t.Errorf("10 %% to 90 %% is %v days, want 23", got)
	}
}

// Independent deviations add as squares do, and the mean size of a normal error
// is √(2/π) = 0.797885 of its deviation.
func TestTogetherAndExpected(t *testing.T) {
	if got := spread.Together(3, 4); got != 5 {
		t.Errorf("3 and 4 days are %v together, want 5", got)
	}
	if got := spread.Expected(10); math.Abs(got-7.97885) > 5e-6 {
		t.Errorf("a deviation of 10 days is expected to be off by %v", got)
	}
}
