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
