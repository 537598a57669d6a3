package zonal_test

import (
	"math"
	"math/rand"
	"reflect"
	"sync"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/regions"
	"weekband/regions/zonal"
)

// winter is a block of all rows of a grid whose ground crosses about New Year
// in the south and in spring in the north, with some of every reason.
func winter(r *rand.Rand, g grid.Grid) *zonal.Cells {
	n := g.Cells()
	b := &zonal.Cells{
		Rows: g.Rows(), Reason: make([]crossing.Reason, n), Day: make([]float32, n),
		OntimeFrom: make([]float32, n), CatchupTo: make([]float32, n), Error: make([]float32, n),
	}
	for i := range n {
		if r.Intn(8) == 0 {
			b.Reason[i] = crossing.Reasons[r.Intn(len(crossing.Reasons))]
		} else {
			b.Reason[i] = crossing.Dated
		}
		if !b.Reason[i].HasDay() {
			continue
		}
		north := 1 - float64(i/g.Cols())/float64(g.Rows())
		day := float32(season.Day(350 + 90*north + 4*r.NormFloat64()).In())
		b.Day[i], b.OntimeFrom[i] = day, day-float32(25+10*r.Float64())
		b.CatchupTo[i], b.Error[i] = day+float32(20+15*r.Float64()), float32(1+4*r.Float64())
	}
	return b
}

// rowsOf returns rows of a block of all rows.
func rowsOf(b *zonal.Cells, first, rows, cols int) *zonal.Cells {
	from, to := first*cols, (first+rows)*cols
	out := &zonal.Cells{First: first, Rows: rows, Reason: b.Reason[from:to], Day: b.Day[from:to], OntimeFrom: b.OntimeFrom[from:to], CatchupTo: b.CatchupTo[from:to]}
	if b.Error != nil {
		out.Error = b.Error[from:to]
	}
	return out
}

// Blocks of any size, in any order and from several goroutines, come to the
// same.
func TestTallyDoesNotDependOnOrder(t *testing.T) {
	r := rand.New(rand.NewSource(8))
	g := mustGrid(t, grid.Box{West: -100, South: 40, East: -86, North: 46}, 61, 47)
	set := patches(r, g)
	all := winter(r, g)
	sweep := zonal.NewSweep(set, g)
	cut := season.Week(48).Begin()
	var want []zonal.Sums
	for _, step := range []int{61, 16, 7, 1} {
		tally := zonal.NewTally(sweep)
		var wait sync.WaitGroup
		for _, i := range r.Perm((g.Rows() + step - 1) / step) {
			wait.Go(func() {
				first, rows := i*step, min(step, g.Rows()-i*step)
				tally.Add(rowsOf(all, first, rows, g.Cols()), sweep.Rows(first, rows))
			})
		}
		wait.Wait()
		var got []zonal.Sums
		for i := range set.Regions {
			got = append(got, tally.Region(i, cut))
		}
		if want == nil {
			want = got
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("blocks of %d rows come to something else", step)
		}
	}
}

// A tally against Summarize of the same cells, and its ground against the sums
// of the cells.
func TestTallyAgainstSummarize(t *testing.T) {
	r := rand.New(rand.NewSource(9))
	g := mustGrid(t, grid.Box{West: -100, South: 40, East: -86, North: 46}, 61, 47)
	set := patches(r, g)
	all := winter(r, g)
	sweep := zonal.NewSweep(set, g)
	tally := zonal.NewTally(sweep)
	tally.Add(all, sweep.Rows(0, g.Rows()))

	cut := season.Week(45).Begin()
	day, reason := grid.NewRaster[float32](g), grid.NewRaster[crossing.Reason](g)
	var weeks [season.Weeks + 1]float64
	for i, why := range all.Reason {
		cell := grid.Cell{Row: i / g.Cols(), Col: i % g.Cols()}
		reason.Set(cell, why)
		if !why.HasDay() {
			continue
		}
		d := all.Day[i]
		weeks[season.Day(d).Week()] += g.CellArea(cell.Row)
		if season.Day(d) < cut {
			d += season.YearDays
		}
		day.Set(cell, d)
	}
	near := func(what string, got, want, tol float64) {
		t.Helper()
		if !(math.Abs(got-want) <= tol) {
			t.Errorf("%s is %v, want %v", what, got, want)
		}
	}
	ground, _ := tally.Ground()
	for w, km2 := range ground {
		near("a week of all ground", km2, weeks[w], 1e-9*weeks[w])
	}
	for i, c := range zonal.CoverAll(set, g) {
		got, want := tally.Region(i, cut).Summary, zonal.Summarize(c, day, reason)
		near("area", got.AreaKm2, want.AreaKm2, 1e-9*want.AreaKm2)
		for _, why := range crossing.Reasons {
			near(why.String(), byReason(got)[why], byReason(want)[why], 1e-9)
		}
		for w := range want.Weeks {
			near("a week", got.Weeks[w], want.Weeks[w], 1e-9)
		}
		if got.HasDay != want.HasDay {
			t.Fatalf("region %d has a day: %v, want %v", i, got.HasDay, want.HasDay)
		}
		near("p10", got.P10, want.P10, 1./16)
		near("median", got.Median, want.Median, 1./16)
		near("p90", got.P90, want.P90, 1./16)
	}
}

// A region beside the grid and one without any ground have no data.
func TestTallyOfNothing(t *testing.T) {
	g := lopsided(t)
	away := regions.Region{Shape: block(0, 0, 1, 1)}
	sweep := zonal.NewSweep(regions.Set{Regions: []regions.Region{away, {}}}, g)
	tally := zonal.NewTally(sweep)
	tally.Add(winter(rand.New(rand.NewSource(1)), g), sweep.Rows(0, g.Rows()))
	if s := tally.Region(0, 1); s.HasDay || s.NoDataShare != 1 || math.Abs(s.AreaKm2-12308.463894) > 1e-5 {
		t.Errorf("beside the grid: %+v", s)
	}
	if s := tally.Region(1, 1); s.HasDay || s.NoDataShare != 1 || s.AreaKm2 != 0 {
		t.Errorf("without ground: %+v", s)
	}
}
