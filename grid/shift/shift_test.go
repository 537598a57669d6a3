package shift_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/shift"
)

// box is far from the origin, its cells wider than high.
var box = grid.Box{West: -91, South: 37, East: -84, North: 39.5}

func mustGrid(box grid.Box, rows, cols int) grid.Grid {
	g, err := grid.New(box, rows, cols)
	if err != nil {
		panic(err)
	}
	return g
}

// layer reads rows of days; n, a and f are never, always and flat, a dot is
// ground without normals.
func layer(g grid.Grid, rows ...string) shift.Layer {
	l := shift.Layer{Day: grid.NewRaster[float32](g), Reason: grid.NewRaster[crossing.Reason](g)}
	for row, text := range rows {
		for col, word := range strings.Fields(text) {
			c := grid.Cell{Row: row, Col: col}
			switch word {
			case "n":
				l.Reason.Set(c, crossing.Never)
			case "a":
				l.Reason.Set(c, crossing.Always)
			case "f":
				l.Reason.Set(c, crossing.Flat)
			case ".":
			default:
				var day float32
				if _, err := fmt.Sscan(word, &day); err != nil {
					panic(err)
				}
				l.Day.Set(c, day)
				l.Reason.Set(c, crossing.Dated)
			}
		}
	}
	return l
}

func ExampleBetween() {
	g := mustGrid(box, 1, 3)
	f, err := shift.Between(layer(g, "80.5 90 n"), layer(g, "76.5 90 120"))
	if err != nil {
		fmt.Println(err)
		return
	}
	for c, days := range f.Days.All() {
		weeks, _ := f.Weeks.At(c)
		fmt.Printf("column %d: %+g days, %+d weeks\n", c.Col, days, weeks)
	}
	s := f.Sum()
	fmt.Printf("%.0f of %.0f km² have a week now and had none\n", s.FateKm2[shift.Gained], s.Km2)
	// Output:
	// column 0: -4 days, -1 weeks
	// column 1: +0 days, +0 weeks
	// 56674 of 170022 km² have a week now and had none
}

// Worked out by hand: weeks begin on days 1, 8, … 78, 85, 92; 358 is the last.
func TestBetweenByHand(t *testing.T) {
	g := mustGrid(box, 2, 7)
	before := layer(g, "80 84.9 364.5 3   n   n 90", "100 f  90 .   90 a .")
	after := layer(g, "80 85.1 2.5   360 100 a .", "100 f  n  100 62 a .")
	f, err := shift.Between(before, after)
	if err != nil {
		t.Fatal(err)
	}
	type cell struct {
		days  float64
		weeks int
		fate  shift.Fate
	}
	want := [2][7]cell{
		{{fate: shift.Moved}, {0.2, 1, shift.Moved}, {3, 1, shift.Moved}, {-8, -1, shift.Moved}, {fate: shift.Gained}, {fate: shift.Undated}, {fate: shift.OnlyBefore}},
		{{fate: shift.Moved}, {fate: shift.Undated}, {fate: shift.Lost}, {fate: shift.OnlyAfter}, {-28, -4, shift.Moved}, {fate: shift.Undated}, {}},
	}
	for row := range want {
		for col, w := range want[row] {
			c := grid.Cell{Row: row, Col: col}
			fate, there := f.Fate.At(c)
			if fate != w.fate || there != (w.fate != shift.Nothing) {
				t.Errorf("%v: fate %d, want %d", c, fate, w.fate)
			}
			days, ok := f.Days.At(c)
			weeks, also := f.Weeks.At(c)
			if moved := w.fate == shift.Moved; ok != moved || also != moved || math.Abs(float64(days)-w.days) > 1e-4 || int(weeks) != w.weeks {
				t.Errorf("%v: %v days, %v weeks (%v, %v), want %v, %v", c, days, weeks, ok, also, w.days, w.weeks)
			}
		}
	}
	s := f.Sum()
	north, south := g.CellArea(0), g.CellArea(1)
	for name, c := range map[string][2]float64{
		"all": {s.Km2, 7*north + 6*south}, "moved": {s.FateKm2[shift.Moved], 4*north + 2*south}, "gained": {s.FateKm2[shift.Gained], north},
		"another reason": {s.OtherKm2, north}, "without": {s.FateKm2[shift.Undated], north + 2*south}, "a week later": {s.At(1), 2 * north}, "four weeks earlier": {s.At(-4), south},
		"only before": {s.FateKm2[shift.OnlyBefore], north}, "only after": {s.FateKm2[shift.OnlyAfter], south}, "never, now always": {f.ReasonKm2[crossing.Never][crossing.Always], north},
	} {
		if math.Abs(c[0]-c[1]) > 1e-6*c[1] {
			t.Errorf("%s: %g km², want %g", name, c[0], c[1])
		}
	}
	if s.Earliest != -28 || s.Latest != 3 || s.Median != 0 || s.Same() {
		t.Errorf("from %g to %g, middle %g, same %v", s.Earliest, s.Latest, s.Median, s.Same())
	}
	if earlier, same, later := s.Turned(); math.Abs(earlier-north-south) > 1e-6 || math.Abs(same-north-south) > 1e-6 || math.Abs(later-2*north) > 1e-6 {
		t.Errorf("%g earlier, %g same, %g later", earlier, same, later)
	}
}

// An edition against itself has not moved, whatever is in it; without its
// reasons neither.
func TestNothingMoves(t *testing.T) {
	l := layer(mustGrid(box, 2, 3), "80 n .", "f a 365.9")
	without := shift.Layer{Day: l.Day}
	for name, pair := range map[string][2]shift.Layer{"itself": {l, l}, "older reasons unknown": {without, l}, "newer reasons unknown": {l, without}} {
		f, err := shift.Between(pair[0], pair[1])
		if err != nil {
			t.Fatal(err)
		}
		if s := f.Sum(); !s.Same() || s.Km2 == 0 {
			t.Errorf("%s: %+v", name, s)
		}
	}
}

func TestOtherGridsAreRefused(t *testing.T) {
	a, b := layer(mustGrid(box, 1, 2), "80 90"), layer(mustGrid(box, 1, 3), "80 90 91")
	if _, err := shift.Between(a, b); err == nil || !strings.Contains(err.Error(), "one grid") {
		t.Errorf("two grids: %v", err)
	}
	a.Reason = b.Reason
	if _, err := shift.Between(a, a); err == nil || !strings.Contains(err.Error(), "reasons on") {
		t.Errorf("reasons on another grid: %v", err)
	}
}

// The other way round everything moves back: days and weeks change their
// sign, gained is lost. Half a year, in days or in weeks, has no other side.
func TestShiftsTurn(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 3))
	g := mustGrid(box, 6, 50)
	words := func() (rows []string) {
		for range g.Rows() {
			var row []string
			for range g.Cols() {
				word := fmt.Sprintf("%.2f", 1+364.9*random.Float64())
				if n := random.IntN(10); n < 4 {
					word = []string{"n", "a", "f", "."}[n]
				}
				row = append(row, word)
			}
			rows = append(rows, strings.Join(row, " "))
		}
		return rows
	}
	a, b := layer(g, words()...), layer(g, words()...)
	there, err1 := shift.Between(a, b)
	back, err2 := shift.Between(b, a)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	turned := map[shift.Fate]shift.Fate{shift.Gained: shift.Lost, shift.Lost: shift.Gained, shift.OnlyBefore: shift.OnlyAfter, shift.OnlyAfter: shift.OnlyBefore}
	for c, fate := range there.Fate.All() {
		want, ok := turned[fate]
		if !ok {
			want = fate
		}
		if got, _ := back.Fate.At(c); got != want {
			t.Errorf("%v: %d there, %d back", c, fate, got)
		}
		w1, _ := there.Weeks.At(c)
		w2, _ := back.Weeks.At(c)
		d1, _ := there.Days.At(c)
		d2, _ := back.Days.At(c)
		if w1 != -w2 && w1 != -26 || math.Abs(float64(d1+d2)) > 1e-3 && math.Abs(float64(d1)) < 182.4 {
			t.Errorf("%v: %d weeks and %g days there, %d and %g back", c, w1, d1, w2, d2)
		}
	}
}

func TestWeeksLater(t *testing.T) {
	for _, c := range []struct {
		a, b season.Week
		want int
	}{{12, 12, 0}, {12, 10, -2}, {51, 2, 3}, {2, 51, -3}, {1, 26, 25}, {1, 27, -26}, {27, 1, -26}, {52, 1, 1}, {1, 52, -1}} {
		if got := shift.WeeksLater(c.a, c.b); got != c.want {
			t.Errorf("from week %d to %d: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

// Each half of a wide cell takes the wide cell's day, and nothing beyond the
// edge of the other grid; no day is a mixture.
func TestOntoTakesTheCellUnderTheCentre(t *testing.T) {
	wide := mustGrid(box, 1, 2)
	l := layer(wide, "80 n")
	fine := mustGrid(grid.Box{West: -91, South: 37, East: -77, North: 39.5}, 1, 8) // 1.75° each, to twice as far east
	if g := shift.Finer(wide, fine); g != fine {
		t.Errorf("the finer grid is %v", g)
	}
	if g := shift.Finer(fine, wide); g != fine {
		t.Errorf("the finer grid is %v", g)
	}
	onto := l.Onto(fine)
	for col, want := range []struct {
		day    float32
		reason crossing.Reason
	}{{80, crossing.Dated}, {80, crossing.Dated}, {0, crossing.Never}, {0, crossing.Never}, {}, {}, {}, {}} {
		day, _ := onto.Day.At(grid.Cell{Col: col})
		why, ok := onto.Reason.At(grid.Cell{Col: col})
		if day != want.day || why != want.reason || ok != (want.reason != crossing.NoData) {
			t.Errorf("column %d: %g, %v", col, day, why)
		}
	}
	if same := l.Onto(wide); same.Day != l.Day {
		t.Error("on its own grid a layer is copied")
	}
	if g := shift.Finer(wide, mustGrid(box, 2, 1)); g.Rows() != 2 {
		t.Errorf("of cells of one size the second grid counts, not %v", g)
	}
}
