package report_test

import (
	"math"
	"math/rand"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/report"
	"weekband/regions/zonal"
)

// southern is a field whose ground crosses from mid December to mid January,
// with errors, and the same as a block of days of the year.
func southern(t *testing.T) (*weeks.Field, *zonal.Cells) {
	t.Helper()
	g, err := grid.New(grid.Box{West: 14, South: -39, East: 20, North: -33}, 40, 50)
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewSource(3))
	f := &weeks.Field{Window: status.Window{ID: "winter", AheadDays: 21}, Reason: grid.NewRaster[crossing.Reason](g)}
	b := &zonal.Cells{Rows: g.Rows()}
	rasters := []**grid.Raster[float32]{&f.Day, &f.OntimeFrom, &f.CatchupTo, &f.Error}
	slices := []*[]float32{&b.Day, &b.OntimeFrom, &b.CatchupTo, &b.Error}
	for k := range rasters {
		*rasters[k], *slices[k] = grid.NewRaster[float32](g), make([]float32, g.Cells())
	}
	var km2 [season.Weeks + 1]float64
	for i := range g.Cells() {
		why := crossing.Dated
		if r.Intn(10) == 0 {
			why = crossing.Never
		}
		f.Reason.Set(grid.Cell{Row: i / g.Cols(), Col: i % g.Cols()}, why)
		b.Reason = append(b.Reason, why)
		if !why.HasDay() {
			continue
		}
		day := float32(season.Day(348 + 30*float64(i)/float64(g.Cells()) + 2*r.NormFloat64()).In())
		b.Day[i], b.OntimeFrom[i], b.CatchupTo[i], b.Error[i] = day, day-float32(20+20*r.Float64()), day+float32(60*r.Float64()), float32(3+r.Float64())
		km2[season.Day(day).Week()] += g.CellArea(i / g.Cols())
	}
	f.Cut = weeks.CutOf(km2)
	for i, why := range b.Reason {
		if !why.HasDay() {
			continue
		}
		year := float32(0)
		if season.Day(b.Day[i]) < f.Cut {
			year = season.YearDays
		}
		for k, add := range []float32{year, year, year, 0} {
			(*rasters[k]).Set(grid.Cell{Row: i / g.Cols(), Col: i % g.Cols()}, (*slices[k])[i]+add)
		}
	}
	return f, b
}

// Rows from a tally tell the same dates as rows from the whole field, over New
// Year too, days and errors to half a bin.
func TestTalliedRowsAreThoseOfBuild(t *testing.T) {
	f, b := southern(t)
	if f.Cut == 1 {
		t.Fatal("the field does not cross New Year")
	}
	var set regions.Set
	for i := range 30 {
		west := 14 + 0.19*float64(i)
		r := strip(string(rune('a'+i)), west, west+0.3)
		r.Shape[0][0][0][1], r.Shape[0][0][1][1] = -39, -38.5+float64(i)/9
		for _, k := range []int{2, 3} {
			r.Shape[0][0][k][1] = -35
		}
		r.Shape[0][0][4] = r.Shape[0][0][0]
		r.Bounds = regions.BoundsOf(r.Shape)
		set.Regions = append(set.Regions, r)
	}
	sweep := zonal.NewSweep(set, f.Grid())
	tally := zonal.NewTally(sweep)
	tally.Add(b, sweep.Rows(0, b.Rows))

	want := report.Build([]*weeks.Field{f}, set, zonal.CoverAll(set, f.Grid()))
	got := report.Tallied([]status.Window{f.Window}, set, []*zonal.Tally{tally})
	if len(got) != len(want) {
		t.Fatalf("%d rows, want %d", len(got), len(want))
	}
	wrapped := 0
	for i := range want {
		g, w := got[i], want[i]
		if g.ID != w.ID || g.Name != w.Name || g.Dated != w.Dated || g.Window.ID != w.Window.ID {
			t.Fatalf("row %d: %+v, want %+v", i, g, w)
		}
		for what, pair := range map[string][2]season.Day{
			"median": {g.Median, w.Median}, "p10": {g.P10, w.P10}, "p90": {g.P90, w.P90}, "ahead from": {g.Calendar.AheadFrom, w.Calendar.AheadFrom},
			"on time from": {g.Calendar.OntimeFrom, w.Calendar.OntimeFrom}, "on time to": {g.Calendar.OntimeTo, w.Calendar.OntimeTo},
			"catching up to": {g.Calendar.CatchupTo, w.Calendar.CatchupTo},
		} {
			if pair[0].ISO() != pair[1].ISO() || math.Abs(float64(pair[0]-pair[1])) > 0.5 {
				t.Errorf("%s: %s is %v, want %v", g.ID, what, float64(pair[0]), float64(pair[1]))
			}
		}
		if math.Abs(float64(g.Median-w.Median)) > 1./32 || math.Abs(g.Error-w.Error) > 0.25 {
			t.Errorf("%s: median %v and error %v, want %v and %v", g.ID, g.Median, g.Error, w.Median, w.Error)
		}
		if w.Median > season.YearDays+1 {
			wrapped++
		}
	}
	if wrapped == 0 || wrapped == len(want) {
		t.Errorf("%d of %d medians lie after New Year; want some of both", wrapped, len(want))
	}
}
