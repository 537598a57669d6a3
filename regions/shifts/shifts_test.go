package shifts_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/shift"
	"weekband/grid/status"
	"weekband/regions"
	"weekband/regions/shifts"
	"weekband/regions/zonal"
)

// ground is one row of four cells: a day each, the last gains one.
func ground(t testing.TB) *shift.Field {
	t.Helper()
	g, err := grid.New(grid.Box{West: 10, South: 50, East: 14, North: 50.5}, 1, 4)
	if err != nil {
		t.Fatal(err)
	}
	before := shift.Layer{Day: grid.NewRaster[float32](g), Reason: grid.NewRaster[crossing.Reason](g)}
	after := shift.Layer{Day: grid.NewRaster[float32](g), Reason: grid.NewRaster[crossing.Reason](g)}
	for col, days := range [][2]float32{{100, 98}, {100, 90}, {100, 106}, {0, 110}} {
		c := grid.Cell{Col: col}
		before.Reason.Set(c, crossing.Never)
		if days[0] > 0 {
			before.Day.Set(c, days[0])
			before.Reason.Set(c, crossing.Dated)
		}
		after.Day.Set(c, days[1])
		after.Reason.Set(c, crossing.Dated)
	}
	f, err := shift.Between(before, after)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// box is a region between two longitudes.
func box(id string, west, east float64) regions.Region {
	shape := orb.MultiPolygon{{{{west, 50}, {east, 50}, {east, 50.5}, {west, 50.5}, {west, 50}}}}
	return regions.Region{ID: id, Name: id, Shape: shape, Bounds: regions.BoundsOf(shape)}
}

func line(id string, median season.Day) shifts.Line {
	return shifts.Line{
		Window: "spring", ID: id, Name: "Name of " + id, AreaKm2: 100, Dated: true, Median: median, Week: median.Week(),
		Calendar: status.Calendar{AheadFrom: median - 40, OntimeFrom: median - 19, OntimeTo: median, CatchupTo: median + 30},
	}
}

// Worked out by hand: half of the first cell, the second and a quarter of the
// third; shifts −2 (week 15 to 14), −10 (to 13), +6 (to 16).
func TestPairByHand(t *testing.T) {
	f := ground(t)
	set := regions.Set{Regions: []regions.Region{box("west", 10.5, 12.25), box("east", 13, 14), box("off", 13.5, 15)}}
	covers := zonal.CoverAll(set, f.Grid())
	flat := line("off", 106)
	flat.FlatShare = 0.6
	before := []shifts.Line{line("gone", 80), line("west", 100), {Window: "spring", ID: "east", NeverShare: 1}, line("off", 100)}
	after := []shifts.Line{line("west", 90), line("east", 110), flat, line("new", 70)}
	rows := shifts.Pair(f, set, covers, before, after)
	want := []struct {
		id     string
		change shifts.Change
		common float64
		median float64
		weeks  int
		gained float64
	}{
		{"west", shifts.Earlier, 1, -10, -2, 0}, {"east", shifts.Gained, 0, 0, 0, 1}, {"off", shifts.Lost, 0, 0, 0, 1.0 / 3},
		{"new", shifts.Added, 0, 0, 0, 0}, {"gone", shifts.Left, 0, 0, 0, 0},
	}
	if len(rows) != len(want) {
		t.Fatalf("%d rows", len(rows))
	}
	for i, w := range want {
		r := &rows[i]
		if r.ID != w.id || r.Change() != w.change || r.Median != w.median || r.Weeks() != w.weeks {
			t.Errorf("row %d: %s %v, %g days, %d weeks; want %+v", i, r.ID, r.Change(), r.Median, r.Weeks(), w)
		}
		if math.Abs(r.Common-w.common) > 1e-6 || math.Abs(r.GainedShare-w.gained) > 1e-6 {
			t.Errorf("%s: common %g, gained %g; want %+v", r.ID, r.Common, r.GainedShare, w)
		}
	}
	west := rows[0]
	if west.P10 != -10 || west.P90 != 6 || math.Abs(west.Earlier-1.5/1.75) > 1e-6 || west.Same != 0 || math.Abs(west.Later-0.25/1.75) > 1e-6 {
		t.Errorf("west: %+v", west)
	}
	if d, ok := west.Dates(); !ok || d != (shifts.Dates{AheadFrom: -10, OntimeFrom: -10, OntimeTo: -10, CatchupTo: -10}) {
		t.Errorf("west: dates %+v, %v", d, ok)
	}
	if _, ok := rows[1].Dates(); ok {
		t.Error("a region without dates before has shifts of them")
	}
	if got := shifts.Of(rows, shifts.Added); len(got) != 1 || got[0].ID != "new" {
		t.Errorf("added: %v", got)
	}
}

func TestMiddleDates(t *testing.T) {
	var rows []shifts.Row
	for i, later := range []season.Day{9, -4, 1, 0} {
		a, b := line("r", 360), line("r", 360+later)
		b.Median, b.Week = b.Median.In(), b.Median.Week()
		b.Calendar.OntimeTo = b.Calendar.OntimeTo.In() // 9 days later is in the next year
		b.Calendar.CatchupTo += season.Day(i)
		rows = append(rows, shifts.Row{Before: &a, After: &b})
	}
	d, n := shifts.MiddleDates(rows)
	if n != 4 || d.OntimeTo != 0 || d.OntimeFrom != 0 || d.CatchupTo != 3 {
		t.Errorf("%+v of %d", d, n)
	}
	if _, n := shifts.MiddleDates(nil); n != 0 {
		t.Errorf("no rows give %d", n)
	}
}

// A region counts as drawn anew from half a percent of its area on.
func TestRedrawn(t *testing.T) {
	for area, want := range map[float64]bool{100: false, 100.4: false, 100.7: true, 90: true} {
		a, b := line("r", 100), line("r", 100)
		b.AreaKm2 = area
		if got := (&shifts.Row{Before: &a, After: &b}).Redrawn(); got != want {
			t.Errorf("from 100 to %g km²: %v", area, got)
		}
	}
}

func ExampleRow_Weeks() {
	a, b := line("vale", 363), line("vale", 4)
	r := shifts.Row{ID: "vale", Before: &a, After: &b}
	fmt.Println(a.Week, "to", b.Week, "is", r.Weeks(), "week", r.Change())
	// Output: Dec 24–31 to Jan 1–7 is 1 week later
}

// Lines are alike whatever the window and the region are called.
func TestAlike(t *testing.T) {
	a, b := line("vale", 100), line("vale", 100)
	b.Name, b.Window = "Vale", "fall"
	if !a.Alike(&b) {
		t.Errorf("%+v and %+v are not alike", a, b)
	}
	if b.Calendar.CatchupTo++; a.Alike(&b) || b.Name != "Vale" {
		t.Errorf("%+v and %+v are alike", a, b)
	}
}
