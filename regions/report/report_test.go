package report_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/grid/worth"
	"weekband/regions"
	"weekband/regions/report"
	"weekband/regions/zonal"
)

// lopsided is a field on 5 × 7 cells: day 90 + column in the western five
// columns, never in the sixth, no data in the seventh.
func lopsided() (*weeks.Field, error) {
	g, err := grid.New(grid.Box{West: -91, South: 37, East: -84, North: 39.5}, 5, 7)
	if err != nil {
		return nil, err
	}
	f := &weeks.Field{
		Window: status.Window{ID: "spring", AheadDays: 21}, Cut: 1,
		Reason: grid.NewRaster[crossing.Reason](g), Day: grid.NewRaster[float32](g),
		OntimeFrom: grid.NewRaster[float32](g), CatchupTo: grid.NewRaster[float32](g),
	}
	for row := range 5 {
		for col := range 5 {
			c := grid.Cell{Row: row, Col: col}
			f.Reason.Set(c, crossing.Dated)
			f.Day.Set(c, float32(90+col))
			f.OntimeFrom.Set(c, float32(60+col))
			f.CatchupTo.Set(c, float32(130+col))
		}
		f.Reason.Set(grid.Cell{Row: row, Col: 5}, crossing.Never)
	}
	return f, nil
}

// strip is a region over all rows between two longitudes.
func strip(id string, west, east float64) regions.Region {
	ring := orb.Ring{{west, 37}, {east, 37}, {east, 39.5}, {west, 39.5}, {west, 37}}
	shape := orb.MultiPolygon{{ring}}
	return regions.Region{ID: id, Name: "Strip " + id, Shape: shape, Bounds: regions.BoundsOf(shape)}
}

func built(rs ...regions.Region) ([]report.Row, error) {
	f, err := lopsided()
	if err != nil {
		return nil, err
	}
	set := regions.Set{Regions: rs}
	return report.Build([]*weeks.Field{f}, set, zonal.CoverAll(set, f.Grid())), nil
}

func ExampleBuild() {
	rows, err := built(strip("W", -91, -88)) // columns 0 to 2
	if err != nil {
		fmt.Println(err)
		return
	}
	c := rows[0].Calendar
	fmt.Println(rows[0].Name, rows[0].Median, "on time", season.Span(c.OntimeFrom, c.OntimeTo))
	// Output: Strip W Apr 1 on time Mar 2–31
}

// Worked by hand: half of columns 4, all of 5 and half of 6.
func TestSharesAndDates(t *testing.T) {
	rows, err := built(strip("E", -86.5, -84.5), strip("N", -85, -84))
	if err != nil {
		t.Fatal(err)
	}
	e := rows[0]
	if !e.Dated || e.Median != 94 || e.P10 != 94 || e.P90 != 94 {
		t.Errorf("the only dated column crosses on day 94: %+v", e)
	}
	if want := (status.Calendar{AheadFrom: 43, OntimeFrom: 64, OntimeTo: 94, CatchupTo: 134}); e.Calendar != want {
		t.Errorf("calendar %+v, want %+v", e.Calendar, want)
	}
	for what, v := range map[string][2]float64{
		"dated": {e.Shares.DatedShare, 0.25}, "never": {e.Shares.NeverShare, 0.5}, "no data": {e.Shares.NoDataShare, 0.25},
	} {
		if math.Abs(v[0]-v[1]) > 1e-9 {
			t.Errorf("%s %v, want %v", what, v[0], v[1])
		}
	}
	n := rows[1]
	if n.Dated || n.Calendar != (status.Calendar{}) || math.Abs(n.Shares.NoDataShare-1) > 1e-9 {
		t.Errorf("a region without data: %+v", n)
	}
	if got := report.Of(rows, "spring"); len(got) != 2 {
		t.Errorf("%d rows of the window", len(got))
	}
	if got := report.Of(rows, "autumn"); len(got) != 0 {
		t.Errorf("%d rows of a window that is not there", len(got))
	}
}

// What applications come to is asked of the typical year of the cell nearest to
// the median, moved so that it crosses on it. Worked by hand: of three columns
// that cross on days 90 to 92 the median is 91; their year is one of a cosine
// that crosses on its own day.
func TestValueOfTheMedianCell(t *testing.T) {
	f, err := lopsided()
	if err != nil {
		t.Fatal(err)
	}
	f.Window.Trigger = crossing.Trigger{Level: 12, Direction: crossing.Warming}
	f.Window.Treatment = worth.Usual(worth.Medium)
	f.Spread = grid.NewRaster[float32](f.Grid())
	f.Error = grid.NewRaster[float32](f.Grid())
	typical := weeks.NewYears(f.Grid())
	for c, day := range f.Day.All() {
		f.Spread.Set(c, 12)
		f.Error.Set(c, 5)
		var months weeks.Months // hundredths of a degree, rising through 12 °C in mid-April
		for m := range months {
			months[m] = int16(1200 + float64(day)*10 - 900 - 1100*math.Cos(2*math.Pi*(float64(m)-0.3)/12))
		}
		typical.Blocks.Set(c, months)
	}
	f.Common = &weeks.Common{Typical: typical}
	set := regions.Set{Regions: []regions.Region{strip("W", -91, -88), strip("none", -86, -84)}}
	rows := report.Build([]*weeks.Field{f}, set, zonal.CoverAll(set, f.Grid()))

	r := rows[0]
	if r.Value == nil || r.Soil == nil || math.Abs(r.Doubt-13) > 1e-6 {
		t.Fatalf("value %v, soil %v, doubt %v; want 13 of 12 and 5", r.Value, r.Soil, r.Doubt)
	}
	if got := r.Soil.At(r.Median); math.Abs(got-12) > 1e-6 || r.Median != 91 {
		t.Errorf("soil has %v °C on the median day %v", got, r.Median)
	}
	if c := r.Value.Costs; c.OntimeTo.Day != 91 || c.OntimeTo.Worth <= c.CatchupTo.Worth {
		t.Errorf("costs %+v", c)
	}
	early, late := r.Years()
	if want := season.Day(91 - 16.66017); math.Abs(float64(early-want)) > 1e-4 || early+late != 182 { // 1.2815516 · 13
		t.Errorf("an early year on %v, a late one on %v", float64(early), float64(late))
	}
	slope := (r.Soil.At(92) - r.Soil.At(90)) / 2
	if got := float64(r.Envelope()); math.Abs(got-16.66017*slope) > 1e-4 || slope < 0.1 {
		t.Errorf("years keep within %v K, want %v", got, 16.66017*slope)
	}
	if none := rows[1]; none.Value != nil || none.Soil != nil || none.Doubt != 0 {
		t.Errorf("a region without a day: %+v", none)
	}

	// Rows of a stream take theirs from a sample of the cells.
	sampled := []report.Row{{Window: &f.Window, Dated: true, Median: r.Median, Calendar: r.Calendar}, {Window: &f.Window}}
	report.AddValues(sampled, []*weeks.Field{f}, zonal.CoverAll(set, f.Grid()))
	if sampled[0].Value == nil || *sampled[0].Value != *r.Value || sampled[1].Value != nil {
		t.Errorf("%+v, want %+v; and %+v", sampled[0].Value, r.Value, sampled[1].Value)
	}
}

// The reason of most of the ground counts; where none has any, there are no
// data.
func TestWhy(t *testing.T) {
	for want, s := range map[crossing.Reason]zonal.Summary{
		crossing.Never:  {NeverShare: 0.4, AlwaysShare: 0.3, NoDataShare: 0.3},
		crossing.Always: {NeverShare: 0.2, AlwaysShare: 0.3, NoDataShare: 0.5},
		crossing.Flat:   {FlatShare: 0.1, NoDataShare: 0.9},
		crossing.NoData: {NoDataShare: 1},
	} {
		if got := report.Why(s); got != want {
			t.Errorf("%+v: %v, want %v", s, got, want)
		}
	}
}
