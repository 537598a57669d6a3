package bands_test

import (
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
	"pgregory.net/rapid"

	"weekband/grid"
	"weekband/regions/arcs"
	"weekband/regions/bands"
)

// raw keeps lines as the triangles give them.
var raw = bands.Options{Simplify: -1, Smooth: -1}

func TestTraceRandomFields(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		rows, cols := rapid.IntRange(1, 9).Draw(rt, "rows"), rapid.IntRange(1, 9).Draw(rt, "cols")
		// Few distinct values, equal to breaks as often as not, so that ties,
		// flat ground, saddles and diagonal neighbours all come up.
		kinds := rapid.SliceOfN(rapid.IntRange(-4, 8), rows*cols, rows*cols).Draw(rt, "kinds")
		breaks := rapid.SampledFrom([][]float64{
			nil, {2}, {0.5, 3}, {1, 2, 3, 4, 5, 6, 7}, {0, 0.01, 0.02, 0.03, 4, 4.0001, 7.75}, manyBreaks(),
		}).Draw(rt, "breaks")
		o := rapid.SampledFrom([]bands.Options{{}, raw, {Simplify: 1.5}, {Simplify: 0.4, Smooth: 40}}).Draw(rt, "options")
		f := newField(t, rows, cols, func(row, col int) (float64, bool) {
			v := kinds[row*cols+col]
			return float64(v), v >= 0
		})
		for i, v := range kinds {
			if v == -1 || v == -2 {
				f.Class.Set(grid.Cell{Row: i / cols, Col: i % cols}, uint8(-v))
			}
		}
		set, err := bands.Trace(f, breaks, o)
		if err != nil {
			rt.Fatalf("%v", err)
		}
		mustBeValid(rt, f, set)
		if o == raw {
			centresInTheirBand(rt, f, set, breaks)
		}
	})
}

func manyBreaks() []float64 {
	breaks := make([]float64, 300) // more than fit an edge at 1/512
	for i := range breaks {
		breaks[i] = float64(i) / 40
	}
	return breaks
}

// centresInTheirBand checks that the centre of every cell lies in the band of
// its day, or in its class, and in no other.
func centresInTheirBand(t *rapid.T, f bands.Field, set bands.Set, breaks []float64) {
	g := f.Day.Grid()
	for row := range g.Rows() {
		for col := range g.Cols() {
			c := grid.Cell{Row: row, Col: col}
			p := g.Center(c)
			day, dated := f.Day.At(c)
			class, _ := f.Class.At(c)
			for _, b := range set.Bands {
				want := b.Class > 0 && b.Class == class
				if dated {
					want = b.Class == 0 && (b.Index == 0 || breaks[b.Index-1] <= float64(day)) &&
						(b.Index == len(breaks) || float64(day) < breaks[b.Index])
				}
				if got := planar.MultiPolygonContains(b.Shape, orb.Point{p.Lon, p.Lat}); got != want {
					t.Fatalf("cell %v (day %v %v, class %d) in band %d class %d: %v", c, day, dated, class, b.Index, b.Class, got)
				}
			}
		}
	}
}

func TestTraceLargeFieldsWithCoast(t *testing.T) {
	for seed := range int64(4) {
		f := waves(t, 90, 130, seed)
		set, err := bands.Trace(f, []float64{70, 77, 84, 91, 98, 105, 112, 119, 126, 133, 140}, bands.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(set.Bands) < 6 {
			t.Fatalf("seed %d: only %d bands, the field is too plain to test", seed, len(set.Bands))
		}
		mustBeValid(t, f, set)
	}
}

// A day that rises by 1 a column is x − 0.5 at x columns from the west, so
// the contour of 5.3 is the meridian at 5.8 columns.
func TestTracePlaneByHand(t *testing.T) {
	f := newField(t, 5, 12, func(_, col int) (float64, bool) { return float64(col), true })
	set, err := bands.Trace(f, []float64{5.3}, bands.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(set.Bands) != 2 {
		t.Fatalf("%d bands, want 2", len(set.Bands))
	}
	for _, p := range inCells(f.Day.Grid(), set.Bands[0].Shape)[0][0] {
		if p[0] != 0 && math.Abs(p[0]-5.8) > 1e-9 {
			t.Errorf("vertex at column %v, want 0 or 5.8", p[0])
		}
	}
	if got := arcs.Area(inCells(f.Day.Grid(), set.Bands[0].Shape)); math.Abs(got-5*5.8) > 1e-9 {
		t.Errorf("area %v cells, want 29", got)
	}
}

// Away from the border of the grid a slanted plane gives straight lines:
// day = x + 2y − 1.5 with x and y in cells from the corner.
func TestTraceSlantedPlaneIsStraight(t *testing.T) {
	f := newField(t, 14, 17, func(row, col int) (float64, bool) { return float64(col + 2*row), true })
	for name, c := range map[string]struct {
		options bands.Options
		off     float64 // days
	}{
		"raw":      {raw, 1e-9},
		"smoothed": {bands.Options{Simplify: -1}, 0.04}, // the bend at the border carries inward
		"default":  {bands.Options{}, 0.04},
	} {
		set, err := bands.Trace(f, []float64{16.3, 20.6}, c.options)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, p := range inCells(f.Day.Grid(), set.Bands[1].Shape)[0][0] {
			if p[0] < 1 || p[0] > 16 || p[1] < 1 || p[1] > 13 {
				continue
			}
			n++
			if day := p[0] + 2*p[1] - 1.5; math.Abs(day-16.3) > c.off && math.Abs(day-20.6) > c.off {
				t.Errorf("%s: vertex %v has day %v, want 16.3 or 20.6", name, p, day)
			}
		}
		if n == 0 {
			t.Errorf("%s: no inner vertices", name)
		}
	}
}

// The contour of a cone is a circle: radius r, area πr².
func TestTraceConeGivesCircles(t *testing.T) {
	f := newField(t, 60, 60, func(row, col int) (float64, bool) {
		return math.Hypot(float64(row)+0.5-29.3, float64(col)+0.5-30.1), true
	})
	radii := []float64{4, 10, 25}
	set, err := bands.Trace(f, radii, bands.Options{})
	if err != nil {
		t.Fatal(err)
	}
	area := 0.0
	for i, r := range radii {
		shape := inCells(f.Day.Grid(), set.Bands[i].Shape)
		area += arcs.Area(shape)
		if want := math.Pi * r * r; math.Abs(area-want) > 0.025*want {
			t.Errorf("area within %v cells is %.2f, want %.2f", r, area, want)
		}
		for _, p := range shape[0][0] {
			if got := math.Hypot(p[1]-29.3, p[0]-30.1); math.Abs(got-r) > 0.1 {
				t.Errorf("radius %v at a vertex of the circle of %v", got, r)
			}
		}
	}
}

func TestTraceADayAtABreakCountsAsPast(t *testing.T) {
	f := newField(t, 3, 3, func(int, int) (float64, bool) { return 7, true })
	set, err := bands.Trace(f, []float64{7}, bands.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(set.Bands) != 1 || set.Bands[0].Index != 1 {
		t.Errorf("got %+v, want only band 1", set.Bands)
	}
}

func TestTraceDiagonalCellsAndHoles(t *testing.T) {
	rows := []string{
		"##.#",
		"##.#",
		"..##",
		"#.##",
	}
	f := newField(t, 4, 4, func(row, col int) (float64, bool) { return 1, rows[row][col] == '#' })
	set, err := bands.Trace(f, []float64{5}, bands.Options{})
	if err != nil {
		t.Fatal(err)
	}
	mustBeValid(t, f, set)
	if n := len(set.Bands[0].Shape); n != 3 {
		t.Errorf("%d polygons, want 3", n)
	}

	rows = []string{ // two holes that touch in a point and one at the outline
		"#####",
		"#.###",
		"##.##",
		"#####",
	}
	f = newField(t, 4, 5, func(row, col int) (float64, bool) { return 1, rows[row][col] == '#' })
	if set, err = bands.Trace(f, nil, bands.Options{}); err != nil {
		t.Fatal(err)
	}
	mustBeValid(t, f, set)
	if n := len(set.Bands[0].Shape); n != 1 {
		t.Errorf("%d polygons, want 1", n)
	}
}

func TestTraceNothingGivesNoBands(t *testing.T) {
	f := newField(t, 3, 4, func(int, int) (float64, bool) { return 0, false })
	set, err := bands.Trace(f, []float64{1}, bands.Options{})
	if err != nil || len(set.Bands) != 0 {
		t.Errorf("got %+v, %v", set, err)
	}
}

func TestTraceRefuses(t *testing.T) {
	f := newField(t, 2, 2, func(int, int) (float64, bool) { return 1, true })
	bad := newField(t, 2, 2, func(int, int) (float64, bool) { return math.NaN(), true })
	other := newField(t, 3, 2, func(int, int) (float64, bool) { return 1, true })
	for name, c := range map[string]struct {
		field  bands.Field
		breaks []float64
		want   string
	}{
		"equal breaks": {f, []float64{1, 1}, "break 1 is 1; breaks must be finite and rise"},
		"infinite":     {f, []float64{math.Inf(1)}, "must be finite"},
		"not a day":    {bad, []float64{1}, "the day of {Row:0 Col:0} is NaN"},
		"two grids":    {bands.Field{Day: f.Day, Class: other.Class}, nil, "both must share one grid"},
	} {
		if _, err := bands.Trace(c.field, c.breaks, bands.Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %q", name, err, c.want)
		}
	}
}
