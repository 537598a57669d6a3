package shift_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"weekband/grid"
	"weekband/grid/shift"
)

// days is a row of shifts on cells of one size.
func days(values ...float32) *grid.Raster[float32] {
	r := grid.NewRaster[float32](mustGrid(box, 1, len(values)))
	for i, v := range values {
		r.Set(grid.Cell{Col: i}, v)
	}
	return r
}

// By the shorter way around the year: 2 January to 29 December is four days
// back, and 400 is 35 unwrapped.
func TestDaysByHand(t *testing.T) {
	g := mustGrid(box, 1, 6)
	f, err := shift.Between(layer(g, "100 100 2 364 10 400"), layer(g, "104.5 93 363 3 192.5 37"))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float32{4.5, -7, -4, 4, -182.5, 2} {
		if d, ok := f.Days.At(grid.Cell{Col: i}); !ok || d != want {
			t.Errorf("cell %d moved by %g, want %g", i, d, want)
		}
	}
	if f, err = shift.Between(layer(g, ". . 5 n a ."), layer(g, "104.5 93 363 3 192.5 37")); err != nil || f.Days.Count() != 1 {
		t.Errorf("%d cells moved of which one has both days; %v", f.Days.Count(), err)
	}
}

// Exchanging the editions turns the sign.
func TestDaysTurn(t *testing.T) {
	g := mustGrid(box, 20, 30)
	rng := rand.New(rand.NewPCG(3, 4))
	some := func() shift.Layer {
		l := layer(g)
		for i := range g.Cells() {
			l.Day.Set(grid.Cell{Row: i / g.Cols(), Col: i % g.Cols()}, float32(365*rng.Float64())+1)
		}
		return l
	}
	a, b := some(), some()
	there, err := shift.Between(a, b)
	if err != nil {
		t.Fatal(err)
	}
	back, err := shift.Between(b, a)
	if err != nil {
		t.Fatal(err)
	}
	for cell, d := range there.Days.All() {
		if e, _ := back.Days.At(cell); math.Abs(float64(d+e)) > 1e-4 {
			t.Errorf("%v: %g one way, %g the other", cell, d, e)
		}
	}
}

// Some ground has another week although most moved by a day or two, or by
// nothing.
func TestTurnedByDays(t *testing.T) {
	g := mustGrid(box, 1, 3)
	for name, c := range map[string]struct {
		after string
		want  bool
	}{
		"all stay":        {"86 87 88", false},
		"one day, a week": {"86 87 92", true}, // 2 April begins week 14
		"all by a week":   {"93 94 95", false},
	} {
		f, err := shift.Between(layer(g, "86 87 88"), layer(g, c.after))
		if err != nil {
			t.Fatal(err)
		}
		s := f.Sum()
		if earlier, same, later := s.Turned(); s.TurnedByDays() != c.want || earlier != 0 || math.Abs(same+later-s.Km2) > 1e-6 {
			t.Errorf("%s: %v, of %v km² turned %v, %v, %v", name, s.TurnedByDays(), s.Km2, earlier, same, later)
		}
	}
}
