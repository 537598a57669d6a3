package weeks

import (
	"testing"

	"weekband/grid/season"
)

func TestCutOf(t *testing.T) {
	fill := func(weeks ...season.Week) (km2 [season.Weeks + 1]float64) {
		for _, w := range weeks {
			km2[w] = 10
		}
		return km2
	}
	span := func(from, to season.Week) (list []season.Week) {
		for w := from; w <= to; w++ {
			list = append(list, w)
		}
		return list
	}
	world := fill(span(1, 52)...)
	world[35] = 1
	for _, c := range []struct {
		name string
		km2  [season.Weeks + 1]float64
		want season.Day
	}{
		{"nothing", fill(), 1},
		{"spring", fill(span(5, 25)...), 1},
		{"over New Year", fill(append(span(40, 52), 1, 2)...), season.Week(40).Begin()},
		{"a gap within, and New Year", fill(append(span(30, 52), span(1, 20)...)...), season.Week(30).Begin()},
		{"the whole year", world, season.Week(35).Begin()},
	} {
		if got := CutOf(c.km2); got != c.want {
			t.Errorf("%s: cut at day %v, want %v", c.name, float64(got), float64(c.want))
		}
	}
}
