package answer

import (
	"math"
	"testing"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/render/wording"
)

// inventedCase is the spring window in an invented year, far from stations.
func inventedCase(t *testing.T, today int) pageCase {
	t.Helper()
	c := pageCase{Window: inventedWindow(), Year: inventedYear(), Today: today}
	year := *c.Year
	c.answer = judged(windowOf(c.Window), &year, inventedDoubt{10, 5}, true)
	c.fill()
	if err := c.reply.reckon(&year, &c.answer, nil); err != nil {
		t.Fatal(err)
	}
	return c
}

// inventedWindow is a spring window.
func inventedWindow() pageWindow {
	return pageWindow{
		ID: "spring", Title: "Spring", Threshold: 115.0 / 9, Starts: 10, HalfLife: 60, Q10: 2, Reference: 20, Ahead: 21, Floor: 0.25, Below: 0.5, Until: 0.9,
	}
}

// inventedYear is a cosine year whose coldest day is 24 January.
func inventedYear() *curve.Year {
	year := new(curve.Year)
	for i := range year {
		year[i] = 13 - 12*math.Cos(2*math.Pi*float64(i-23)/season.YearDays)
	}
	return year
}

func daysFirst(t *testing.T) *wording.Language {
	t.Helper()
	l, err := wording.Of("en", wording.DayFirst)
	if err != nil {
		t.Fatal(err)
	}
	return l
}
