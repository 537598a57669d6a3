package answer

import (
	"fmt"
	"math"
)

// Shares below and from which there is no fraction in words.
const hardlyAny, nearlyAll = 0.025, 0.95

// roughShares are the fractions that rough shares are written as.
var roughShares = [...]struct {
	share float64
	words string
}{
	{0.05, "a twentieth"}, {0.1, "a tenth"}, {0.2, "a fifth"}, {0.25, "a quarter"}, {1.0 / 3, "a third"}, {0.4, "two fifths"}, {0.5, "half"},
	{0.6, "three fifths"}, {2.0 / 3, "two thirds"}, {0.75, "three quarters"}, {0.8, "four fifths"}, {0.9, "nine tenths"},
}

// RoughShare writes a share of something, 0 to 1, in words: "about a fifth of
// the weeds", "about half the weeds", "nearly all the weeds".
func RoughShare(share float64, whole string) string {
	switch {
	case share < hardlyAny:
		return "hardly any of " + whole
	case share >= nearlyAll:
		return "nearly all " + whole
	}
	nearest := roughShares[0]
	for _, r := range roughShares {
		if math.Abs(r.share-share) < math.Abs(nearest.share-share) {
			nearest = r
		}
	}
	if nearest.words == "half" {
		return "about half " + whole
	}
	return "about " + nearest.words + " of " + whole
}

// RoughDays writes a number of days, at least one.
func RoughDays(days float64) string {
	if n := max(math.Round(days), 1); n > 1 {
		return fmt.Sprintf("%.0f days", n)
	}
	return "a day"
}
