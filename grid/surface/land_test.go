package surface

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"weekband/grid"
)

// isles is a terrain of random heights with random seas, cells × cells of a
// degree divided by perDegree.
func isles(t *testing.T, rows, cols, perDegree int) *grid.Raster[float32] {
	t.Helper()
	n := float64(perDegree)
	g, err := grid.New(grid.Box{West: -50, East: -50 + float64(cols)/n, South: 36, North: 36 + float64(rows)/n}, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	r := grid.NewRaster[float32](g)
	rng := rand.New(rand.NewPCG(7, 11))
	for row := range rows {
		for col := range cols {
			if math.Sin(float64(row)/5)+math.Sin(float64(col)/8) > -1.2 {
				r.Set(grid.Cell{Row: row, Col: col}, float32(rng.IntN(2000)))
			}
		}
	}
	return r
}

// Distances to the shore against the nearest of all cells of sea. The mask
// goes along or across cells only. Midway between two of its steps the way is
// too long by one over the cosine of half the angle between them: 8.2 % for
// square cells (Borgefors 1986), 11 % for these, 3.7 km by 4.6.
func TestShoreAgainstAllSea(t *testing.T) {
	terrain := isles(t, 40, 60, 24)
	l, err := Survey(Raster(terrain))
	if err != nil {
		t.Fatal(err)
	}
	g := terrain.Grid()
	if !l.blocks.Matches(g) {
		t.Fatalf("blocks of cells of 4.6 km: %v", l.blocks)
	}
	for row := range g.Rows() {
		for col := range g.Cols() {
			c := grid.Cell{Row: row, Col: col}
			here, nearest := g.Center(c).Globe(), math.Inf(1)
			for r := range g.Rows() {
				for q := range g.Cols() {
					if _, land := terrain.At(grid.Cell{Row: r, Col: q}); !land {
						sea := g.Center(grid.Cell{Row: r, Col: q}).Globe()
						nearest = min(nearest, here.Distance(&sea))
					}
				}
			}
			if got := float64(l.shore[row*g.Cols()+col]); got < 0.99*nearest || got > 1.12*nearest {
				t.Fatalf("%v: %.2f km to the shore, nearest sea at %.2f", c, got, nearest)
			}
		}
	}
}

// The floor of the valley against all cells of the window, on cells of 1.5 km
// that are taken together in blocks.
func TestValleyFloorAgainstAllCells(t *testing.T) {
	terrain := isles(t, 83, 91, 72)
	l, err := Survey(Raster(terrain))
	if err != nil {
		t.Fatal(err)
	}
	if l.perRow != 2 || l.per != 3 {
		t.Fatalf("blocks of %d × %d cells", l.perRow, l.per)
	}
	down := int(math.Round(floorKm / (l.blocks.StepLat() * grid.KmPerDegree)))
	for row := range l.blocks.Rows() {
		for col := range l.blocks.Cols() {
			low, high, some := float32(math.Inf(1)), float32(math.Inf(-1)), false
			for c, v := range terrain.All() {
				r, q := c.Row/l.perRow, c.Col/l.per
				across := int(math.Round(floorKm / l.blockWidth(r)))
				if r >= row-down && r <= row+down && q >= col-across && q <= col+across {
					low, high, some = min(low, v), max(high, v), true
				}
			}
			k := row*l.blocks.Cols() + col
			if l.has[k] != some || some && (l.low[k] != low || l.high[k] != high) {
				t.Fatalf("block %d, %d: %v %v to %v; want %v %v to %v", row, col, l.has[k], l.low[k], l.high[k], some, low, high)
			}
		}
	}
}

func TestLandOutsideIsNotKnown(t *testing.T) {
	l, err := Survey(Raster(isles(t, 20, 30, 24)))
	if err != nil {
		t.Fatal(err)
	}
	if _, ok := l.at(grid.LonLat{Lon: -50.01, Lat: 36.2}); ok {
		t.Error("west of the terrain the land is known")
	}
	if a, ok := l.at(grid.LonLat{Lon: -49.99, Lat: 36.02}); !ok || a.low > a.high {
		t.Errorf("at the corner: %+v, %v", a, ok)
	}
}

func TestSurveyRefuses(t *testing.T) {
	g, err := grid.New(grid.Box{West: 0, South: 0, East: 1, North: 1}, 4, 4)
	if err != nil {
		t.Fatal(err)
	}
	r := grid.NewRaster[float32](g)
	if _, err := Survey(Raster(r)); err == nil || !strings.Contains(err.Error(), "no cell") {
		t.Errorf("no land at all: %v", err)
	}
	r.Set(grid.Cell{Row: 2, Col: 3}, 32767)
	if _, err := Survey(Raster(r)); err == nil || !strings.Contains(err.Error(), "row 2, column 3") {
		t.Errorf("nodata taken for a height: %v", err)
	}
}

// The index against sorting all stations, also over the pole and across the
// antimeridian.
func TestNearestAgainstAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	places := make([]grid.Globe, 500)
	for i := range places {
		places[i] = grid.LonLat{Lon: 360*rng.Float64() - 180, Lat: 180*rng.Float64() - 90}.Globe()
	}
	x := newIndex(places)
	for _, at := range []grid.LonLat{{Lon: 179.9, Lat: 10}, {Lon: -179.9, Lat: -40}, {Lon: 5, Lat: 89.9}, {Lon: 20, Lat: 50}} {
		p := at.Globe()
		for _, skip := range []int{-1, 17} {
			got, reach := x.nearest(p, 25, skip)
			inside := 0
			for i := range places {
				if i != skip && p.Distance(&places[i]) <= reach {
					inside++
				}
			}
			if len(got) != 25 || inside != 25 {
				t.Errorf("%v without %d: %d found, %d within their reach of %.0f km", at, skip, len(got), inside, reach)
			}
			for i, j := range got {
				if j == skip || i > 0 && p.Distance(&places[got[i-1]]) > p.Distance(&places[j]) {
					t.Errorf("%v without %d: station %d in place %d", at, skip, j, i)
				}
			}
		}
	}
	if got, _ := x.nearest(places[0], 600, 0); len(got) != 499 {
		t.Errorf("asked for more than there are: %d", len(got))
	}
}
