package zonal_test

import (
	"math"
	"math/rand"
	"slices"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/regions"
	"weekband/regions/zonal"
)

// Worked example: of four cells, covered by 1, 0.5, 0.25 and 1, the last has no
// data. So 1.75 / 2.75 of the area has a day, and the median is that of the
// first: 1 is more than half of 1.75.
func TestSharesWorkedExample(t *testing.T) {
	g := mustGrid(t, grid.Box{West: 0, South: 40, East: 4, North: 41}, 1, 4)
	day, reason := grid.NewRaster[float32](g), grid.NewRaster[crossing.Reason](g)
	for col, v := range []float32{10, 12, 20} {
		day.Set(grid.Cell{Col: col}, v)
		reason.Set(grid.Cell{Col: col}, crossing.Dated)
	}
	shape := orb.MultiPolygon{
		{rectangle(0, 40, 1, 41)}, {rectangle(1, 40, 1.5, 41)},
		{rectangle(2, 40, 2.25, 41)}, {rectangle(3, 40, 4, 41)},
	}
	s := zonal.Summarize(zonal.Cover(shape, g), day, reason)
	if math.Abs(s.DatedShare-0.63636) > 5e-6 || s.Median != 10 {
		t.Errorf("median %v of %v, want 10 of 0.63636", s.Median, s.DatedShare)
	}
}

// Worked example: of two cells at 40–41° N and 41–42° N, both covered, the
// northern one has 0.4962649 of the area, not half.
func TestSharesWeighByEllipsoidalArea(t *testing.T) {
	g := mustGrid(t, grid.Box{West: 7, South: 40, East: 8, North: 42}, 2, 1)
	day, reason := grid.NewRaster[float32](g), grid.NewRaster[crossing.Reason](g)
	reason.Set(grid.Cell{Row: 0}, crossing.Never)
	reason.Set(grid.Cell{Row: 1}, crossing.Always)
	s := zonal.Summarize(zonal.Cover(orb.MultiPolygon{{rectangle(7, 40, 8, 42)}}, g), day, reason)
	if math.Abs(s.NeverShare-0.4962649) > 5e-8 {
		t.Errorf("got %.8f, want 0.4962649", s.NeverShare)
	}
}

func TestQuantilesByHand(t *testing.T) {
	g := mustGrid(t, grid.Box{West: 0, South: 0, East: 4, North: 1}, 1, 4)
	r := grid.NewRaster[float32](g)
	for col, v := range []float32{40, 10, 30, 20} {
		r.Set(grid.Cell{Col: col}, v)
	}
	all := zonal.Cover(orb.MultiPolygon{{rectangle(0, 0, 4, 1)}}, g)
	// Equal weights: type 1 gives the lower of the two middle values.
	got, ok := zonal.Quantiles(all, r, 0, 0.25, 0.26, 0.5, 0.9, 1)
	if want := []float64{10, 10, 20, 20, 40, 40}; !ok || !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
	// Weights 1, 1, 1, 0.5 for 40, 10, 30, 20: half of 3.5 is reached at 30.
	part := zonal.Cover(orb.MultiPolygon{{rectangle(0, 0, 3.5, 1)}}, g)
	if got, _ := zonal.Quantiles(part, r, 0.5, 0.42); got[0] != 30 || got[1] != 20 {
		t.Errorf("got %v, want 30 and 20", got)
	}
	empty := grid.NewRaster[float32](g)
	if got, ok := zonal.Quantiles(all, empty, 0.5); ok || got != nil {
		t.Errorf("got %v %v from no values", got, ok)
	}
}

// Quantiles by bins against sorting every cell.
func TestQuantilesAgainstSorting(t *testing.T) {
	g := mustGrid(t, grid.Box{West: -100, South: 30, East: -80, North: 45}, 60, 70)
	rnd := rand.New(rand.NewSource(5))
	r := grid.NewRaster[float32](g)
	for row := range g.Rows() {
		for col := range g.Cols() {
			if v := rnd.NormFloat64(); rnd.Float64() < 0.8 {
				r.Set(grid.Cell{Row: row, Col: col}, float32(math.Round(100+20*v*v*v)))
			}
		}
	}
	c := zonal.Cover(orb.MultiPolygon{{star(-90, 38, 9, 6, 7, 0.5)}}, g)
	type item struct{ v, w float64 }
	var items []item
	total := 0.0
	for cell, share := range c.Cells() {
		if v, ok := r.At(cell); ok {
			w := share * g.CellArea(cell.Row)
			items, total = append(items, item{float64(v), w}), total+w
		}
	}
	slices.SortFunc(items, func(a, b item) int { return int(a.v - b.v) })
	for q := 0.01; q < 1; q += 0.07 {
		sum, want := 0.0, 0.0
		for _, it := range items {
			if sum += it.w; sum >= q*total {
				want = it.v
				break
			}
		}
		if got, _ := zonal.Quantiles(c, r, q); got[0] != want {
			t.Errorf("q %.2f: %v, by sorting %v", q, got[0], want)
		}
	}
}

// One column of ten cells of a degree: five have days, the others each another
// fate; the region also reaches half a cell past the western edge.
func TestSummarize(t *testing.T) {
	g := mustGrid(t, grid.Box{West: 0, South: 0, East: 10, North: 1}, 1, 10)
	day, reason := grid.NewRaster[float32](g), grid.NewRaster[crossing.Reason](g)
	set := func(col int, d float32, r crossing.Reason) {
		reason.Set(grid.Cell{Col: col}, r)
		if r.HasDay() {
			day.Set(grid.Cell{Col: col}, d)
		}
	}
	for col, d := range []float32{359, 360, 366, 367, 375} { // around New Year, unwrapped
		set(col, d, crossing.Dated)
	}
	set(5, 0, crossing.Flat)
	set(6, 0, crossing.Never)
	set(7, 0, crossing.Always)
	set(8, 0, crossing.NoData) // column 9 has no reason at all
	shape := orb.MultiPolygon{{rectangle(-0.5, 0, 9.5, 1)}}
	s := zonal.Summarize(zonal.Cover(shape, g), day, reason)

	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s is %v, want %v", what, got, want)
		}
	}
	near("area", s.AreaKm2, regions.Area(shape))
	near("dated", s.DatedShare, 0.5)
	near("flat", s.FlatShare, 0.1)
	near("never", s.NeverShare, 0.1)
	near("always", s.AlwaysShare, 0.1)
	near("no data", s.NoDataShare, 0.2) // columns 8 and half of 9, half a cell outside
	sum, weeks := 0.0, 0.0
	for _, share := range byReason(s) {
		sum += share
	}
	for _, w := range s.Weeks {
		weeks += w
	}
	near("sum of shares", sum, 1)
	near("sum of weeks", weeks, 0.5)
	near("week 52", s.Weeks[season.Weeks], 0.2) // days 359 and 360
	near("week 1", s.Weeks[1], 0.2)             // days 366 and 367 are 1 and 2 January
	near("week 2", s.Weeks[2], 0.1)             // day 375 is 10 January
	if !s.HasDay || s.P10 != 359 || s.Median != 366 || s.P90 != 375 {
		t.Errorf("quantiles %v %v %v %v, want 359 366 375", s.HasDay, s.P10, s.Median, s.P90)
	}
}

func TestSummarizeNothing(t *testing.T) {
	g := lopsided(t)
	day, reason := grid.NewRaster[float32](g), grid.NewRaster[crossing.Reason](g)
	for name, shape := range map[string]orb.MultiPolygon{
		"inside":  {{rectangle(-98, 41, -95, 42)}},
		"outside": {{rectangle(0, 0, 1, 1)}},
		"empty":   nil,
	} {
		s := zonal.Summarize(zonal.Cover(shape, g), day, reason)
		if s.HasDay || s.NoDataShare != 1 || math.Abs(s.AreaKm2-regions.Area(shape)) > 0.01 {
			t.Errorf("%s: %+v", name, s)
		}
	}
}

// byReason returns the shares of a region by crossing.Reason.
func byReason(s zonal.Summary) [len(crossing.Reasons)]float64 {
	return [...]float64{crossing.NoData: s.NoDataShare, crossing.Dated: s.DatedShare, crossing.Flat: s.FlatShare, crossing.Never: s.NeverShare, crossing.Always: s.AlwaysShare}
}

// Nearest by hand: of two cells as near, the one further north-west; cells
// without a value or outside do not count.
func TestNearest(t *testing.T) {
	g := mustGrid(t, grid.Box{West: 0, South: 0, East: 4, North: 2}, 2, 4)
	r := grid.NewRaster[float32](g)
	for i, v := range []float32{100, 40, 44, 50, 42, 46} {
		r.Set(grid.Cell{Row: i / 4, Col: i % 4}, v)
	}
	east := zonal.Cover(orb.MultiPolygon{{rectangle(1, 0, 4, 2)}}, g) // not 100, nor 42
	for v, want := range map[float64]grid.Cell{42: {Col: 1}, 43: {Col: 2}, 45: {Col: 2}, 99: {Col: 3}, -5: {Col: 1}, 47: {Row: 1, Col: 1}} {
		if got, ok := zonal.Nearest(east, r, v); !ok || got != want {
			t.Errorf("nearest to %v is %v, want %v", v, got, want)
		}
	}
	empty := zonal.Cover(orb.MultiPolygon{{rectangle(2, 0, 4, 1)}}, g)
	if cell, ok := zonal.Nearest(empty, r, 42); ok {
		t.Errorf("%v has no value", cell)
	}
	defer func() {
		if recover() == nil {
			t.Error("a raster on another grid was taken")
		}
	}()
	zonal.Nearest(east, grid.NewRaster[float32](lopsided(t)), 42)
}
