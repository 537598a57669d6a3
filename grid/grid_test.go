package grid_test

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid"
)

// lopsided is five rows by seven columns of unequal steps, far from the
// origin: a mistake in axis order shows.
func lopsided(t *testing.T) grid.Grid {
	t.Helper()
	g, err := grid.New(grid.Box{West: -91, South: 37, East: -84, North: 39.5}, 5, 7)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func ExampleGrid_Center() {
	g, err := grid.New(grid.Box{West: -91, South: 37, East: -84, North: 39.5}, 5, 7)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(g.Center(grid.Cell{Row: 0, Col: 6}))
	// Output: {-84.5 39.25}
}

func TestLocate(t *testing.T) {
	g := lopsided(t)
	cases := []struct {
		name string
		at   grid.LonLat
		want grid.Cell
		ok   bool
	}{
		{"first centre", grid.LonLat{Lon: -90.5, Lat: 39.25}, grid.Cell{}, true},
		{"north-west corner", grid.LonLat{Lon: -91, Lat: 39.5}, grid.Cell{}, true},
		{"south-east corner", grid.LonLat{Lon: -84, Lat: 37}, grid.Cell{Row: 4, Col: 6}, true},
		{"inner edge goes south and east", grid.LonLat{Lon: -90, Lat: 39}, grid.Cell{Row: 1, Col: 1}, true},
		{"just north", grid.LonLat{Lon: -90, Lat: 39.5001}, grid.Cell{}, false},
		{"just east", grid.LonLat{Lon: -83.9999, Lat: 38}, grid.Cell{}, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, ok := g.Locate(c.at)
			if got != c.want || ok != c.ok {
				t.Errorf("Locate(%v) = %v, %v; want %v, %v", c.at, got, ok, c.want, c.ok)
			}
		})
	}
}

func TestNewRefuses(t *testing.T) {
	cases := map[string]struct {
		box        grid.Box
		rows, cols int
	}{
		"across the antimeridian": {grid.Box{West: 170, South: 0, East: -170, North: 10}, 10, 10},
		"longitudes to 360":       {grid.Box{West: 0, South: 0, East: 360, North: 10}, 10, 10},
		"latitude past the pole":  {grid.Box{West: 0, South: 80, East: 10, North: 95}, 10, 10},
		"no rows":                 {grid.Box{West: 0, South: 0, East: 1, North: 1}, 0, 10},
		"not a number":            {grid.Box{West: math.NaN(), South: 0, East: 1, North: 1}, 1, 1},
		"absurd size":             {grid.Box{West: 0, South: 0, East: 1, North: 1}, 1 << 30, 1 << 30},
	}
	for name, c := range cases {
		if _, err := grid.New(c.box, c.rows, c.cols); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// Areas on WGS 84 in km², computed in double precision from the formula of
// Snyder 1987 for the zone of an ellipsoid; the whole Earth agrees with the
// published 510,065,621.724 km².
func TestCellAreaAgainstSnyder(t *testing.T) {
	cases := []struct {
		south, north, width float64
		want                float64
	}{
		{0, 1, 1, 12308.463894},
		{25, 26, 1, 11137.467460},
		{40, 41, 1, 9412.851604},
		{48, 49, 1, 8217.732076},
		{60, 61, 1, 6123.140879},
		{89, 90, 1, 108.866682},
		{40, 40.5, 0.5, 2361.846352},
		{30, 45, 15, 2201787.492776},
	}
	for _, c := range cases {
		box := grid.Box{West: 0, South: c.south, East: c.width, North: c.north}
		if got := box.Area(); math.Abs(got-c.want) > 1e-6*max(1, c.want/1e4) {
			t.Errorf("%v: %.6f km², want %.6f", box, got, c.want)
		}
	}
	world, err := grid.New(grid.Box{West: -180, South: -90, East: 180, North: 90}, 36, 72)
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for row := range world.Rows() {
		sum += world.CellArea(row) * float64(world.Cols())
	}
	if math.Abs(sum-510065621.724089) > 1e-3 {
		t.Errorf("the world has %.6f km², want 510065621.724089", sum)
	}
}

func TestSliceKeepsCells(t *testing.T) {
	g := lopsided(t)
	s := g.Slice(2, 3)
	for row := range 3 {
		a, b := s.Center(grid.Cell{Row: row, Col: 3}), g.Center(grid.Cell{Row: row + 2, Col: 3})
		if math.Abs(a.Lat-b.Lat) > 1e-12 || a.Lon != b.Lon {
			t.Errorf("row %d of the slice is at %v, want %v", row, a, b)
		}
	}
	if s.Box().South != g.Box().South {
		t.Errorf("the last slice ends at %v, want the grid's own edge %v", s.Box().South, g.Box().South)
	}
}

func TestRasterTellsAbsentFromZero(t *testing.T) {
	r := grid.NewRaster[float32](lopsided(t))
	r.Set(grid.Cell{Row: 4, Col: 6}, 0)
	if _, ok := r.At(grid.Cell{Row: 4, Col: 5}); ok {
		t.Error("a cell nobody set has a value")
	}
	n := 0
	for c, v := range r.All() {
		n++
		if c != (grid.Cell{Row: 4, Col: 6}) || v != 0 {
			t.Errorf("visited %v = %v", c, v)
		}
	}
	if n != 1 || r.Count() != 1 {
		t.Errorf("visited %d cells, Count %d; want 1", n, r.Count())
	}
}

func TestSized(t *testing.T) {
	box := grid.Box{West: -91, South: 37, East: -84, North: 39.5}
	g, err := grid.Sized(box, 1.02, 0.49)
	if err != nil || g.Rows() != 5 || g.Cols() != 7 {
		t.Errorf("%v, %v; want 5 × 7", g, err)
	}
	g, err = grid.SizedKm(box, 4)
	if err != nil {
		t.Fatal(err)
	}
	// A cell of 4 km is 16 km², but for whole numbers of rows and columns.
	if area := g.CellArea(g.Rows() / 2); math.Abs(area-16) > 0.3 {
		t.Errorf("%v: cells of %v km², want 16", g, area)
	}
	if _, err := grid.SizedKm(box, 1e-9); err == nil {
		t.Error("cells of a micrometre: no error")
	}
}
