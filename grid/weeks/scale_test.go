package weeks_test

import (
	"slices"
	"testing"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/weeks"
)

// fieldOf is a field on a row of equal cells that cross on the given days.
func fieldOf(t *testing.T, days ...season.Day) *weeks.Field {
	t.Helper()
	g, err := grid.New(grid.Box{West: 3, South: 50, East: 3 + 0.1*float64(len(days)), North: 50.1}, 1, len(days))
	if err != nil {
		t.Fatal(err)
	}
	f := &weeks.Field{Cut: 1, Day: grid.NewRaster[float32](g)}
	for i, day := range days {
		f.Day.Set(grid.Cell{Col: i}, float32(day))
	}
	return f
}

// moved is the raster with all days later by some.
func moved(f *weeks.Field, by season.Day) *grid.Raster[float32] {
	out := grid.NewRaster[float32](f.Grid())
	for cell, day := range f.Day.All() {
		out.Set(cell, day+float32(by))
	}
	return out
}

func labels(bands []weeks.Band) (out []string) {
	for _, b := range bands {
		out = append(out, b.Label())
	}
	return out
}

// run returns days from one to another, one a cell.
func run(from, to season.Day) (days []season.Day) {
	for d := from; d < to; d++ {
		days = append(days, d+0.5)
	}
	return days
}

// The typical map's bands keep their limits; others of the same width join
// them on both sides, over New Year too.
func TestScaleExtendsTheBands(t *testing.T) {
	f := fieldOf(t, run(8, 36)...) // weeks 2 to 5, one band each
	own := f.Bands()
	scale := f.Scale(moved(f, -16), moved(f, 16))
	if len(own) != 4 || len(scale) != 10 {
		t.Fatalf("%d bands, scale of %d: %q", len(own), len(scale), labels(scale))
	}
	shown, before := weeks.Shown(scale, f.Day)
	if before != 3 || !slices.Equal(shown, own) {
		t.Errorf("the typical map shows %q after %d, on its own %q", labels(shown), before, labels(own))
	}
	want := []string{"Dec 17–23", "Dec 24–31", "Jan 1–7"} // week 52 has eight days
	for i, label := range want {
		if scale[i].Label() != label {
			t.Errorf("band %d is %s, want %s", i, scale[i].Label(), label)
		}
	}
	if scale[0].OpenBegin || scale[9].OpenEnd {
		t.Errorf("ends of %q are open and nothing lies beyond", labels(scale))
	}
}

// Whatever the season's length and the spread: the scale holds every day,
// rises without gaps, stays within its size, and its open ends hold at most
// 2 % of any map besides their own weeks.
func TestScaleHoldsEveryDay(t *testing.T) {
	for _, length := range []season.Day{1, 10, 60, 84, 130, 200} {
		for _, by := range []season.Day{0, 5, 15, 30, 58} {
			f := fieldOf(t, run(100, 100+length)...)
			maps := []*grid.Raster[float32]{moved(f, -by), f.Day, moved(f, by)}
			scale := f.Scale(maps[0], maps[2])
			if len(scale) > weeks.MaxScale {
				t.Errorf("%g days, %g aside: %d bands", length, by, len(scale))
			}
			for i := 1; i < len(scale); i++ {
				if scale[i].From != scale[i-1].To {
					t.Errorf("%v follows %v", scale[i], scale[i-1])
				}
			}
			first, last := scale[0], scale[len(scale)-1]
			for _, r := range maps {
				n, below, above := 0.0, 0.0, 0.0
				for _, day := range r.All() {
					n++
					if season.Day(day) < first.From {
						below++
					}
					if season.Day(day) >= last.To {
						above++
					}
				}
				if below > 0 && !first.OpenBegin || above > 0 && !last.OpenEnd {
					t.Errorf("%g days, %g aside: days beyond the ends of %q", length, by, labels(scale))
				}
				if below > 0.02*n || above > 0.02*n {
					t.Errorf("%g days, %g aside: %g and %g of %g days beyond %q", length, by, below, above, n, labels(scale))
				}
			}
		}
	}
}

func TestScaleOfNothing(t *testing.T) {
	f := fieldOf(t, 100)
	f.Day = grid.NewRaster[float32](f.Grid())
	if got := f.Scale(f.Day); got != nil {
		t.Errorf("nothing has the bands %q", labels(got))
	}
}

// A map's own ends are open to a hair of its ground, not to more.
func TestShownOpensToAHair(t *testing.T) {
	scale := fieldOf(t, run(8, 36)...).Bands()
	most := make([]season.Day, 400)
	for i := range most {
		most[i] = 17
	}
	one := fieldOf(t, append([]season.Day{9, 30, 30, 30}, most...)...) // 1 and 3 of 404
	bands, before := weeks.Shown(scale, one.Day)
	if want := []string{"before Jan 22", "Jan 22–28", "Jan 29–Feb 4"}; before != 1 || !slices.Equal(labels(bands), want) {
		t.Errorf("shows %q after %d, want %q after 1", labels(bands), before, want)
	}
	if bands, _ := weeks.Shown(scale, grid.NewRaster[float32](one.Grid())); bands != nil {
		t.Errorf("nothing shows %q", labels(bands))
	}
}
