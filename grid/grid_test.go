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

// Cells fill the grid without a gap, and its outermost edges are the box's own,
// to the last bit.
func TestBoundsOfCells(t *testing.T) {
	g := lopsided(t)
	first, last := g.Bounds(grid.Cell{}), g.Bounds(grid.Cell{Row: 4, Col: 6})
	if want := (grid.Box{West: -91, South: 39, East: -90, North: 39.5}); first != want {
		t.Errorf("the first cell is %v, want %v", first, want)
	}
	if last.East != g.Box().East || last.South != g.Box().South {
		t.Errorf("the last cell is %v in %v", last, g.Box())
	}
	if next := g.Bounds(grid.Cell{Row: 1, Col: 1}); next.West != first.East || next.North != first.South || first.Overlaps(next) {
		t.Errorf("%v and %v meet in a corner only", first, next)
	}
	if !first.Overlaps(grid.Box{West: -90.001, South: 39.2, East: -80, North: 39.3}) {
		t.Error("a box that reaches into the first cell does not overlap it")
	}
}

// Edges may be off by a thousandth of a cell, as headers round.
func TestMatches(t *testing.T) {
	g := lopsided(t)
	for name, c := range map[string]struct {
		box        grid.Box
		rows, cols int
		want       bool
	}{
		"a hair to the east": {grid.Box{West: -90.9991, South: 37, East: -84, North: 39.5}, 5, 7, true},
		"more than a hair":   {grid.Box{West: -90.9989, South: 37, East: -84, North: 39.5}, 5, 7, false},
		"higher than wide":   {grid.Box{West: -91, South: 37, East: -84, North: 39.5006}, 5, 7, false},
		"more rows":          {grid.Box{West: -91, South: 37, East: -84, North: 39.5}, 6, 7, false},
	} {
		o, err := grid.New(c.box, c.rows, c.cols)
		if err != nil {
			t.Fatal(err)
		}
		if g.Matches(o) != c.want || o.Matches(g) != c.want {
			t.Errorf("%s: %v, want %v", name, g.Matches(o), c.want)
		}
	}
}

// A degree of a great circle is 111.195 km on the sphere, and its chord 1.4 m
// shorter; poles lie on the axis.
func TestGlobe(t *testing.T) {
	a, b := grid.LonLat{Lon: 17, Lat: 44.5}.Globe(), grid.LonLat{Lon: 17, Lat: 45.5}.Globe()
	if got := a.Distance(&b); math.Abs(got-111.1936) > 1e-3 || math.Abs(grid.KmPerDegree-111.1951) > 1e-4 {
		t.Errorf("a degree is %v km long, along the ground %v", got, grid.KmPerDegree)
	}
	if p := (grid.LonLat{Lon: 100, Lat: -90}).Globe(); math.Hypot(p[0], p[1]) > 1e-9 || p[2] != -grid.EarthKm {
		t.Errorf("the south pole is at %v", p)
	}
}

// The areas of all cells add to that of the box.
func TestAreasAddUp(t *testing.T) {
	g := lopsided(t)
	r := grid.NewRaster[int](g)
	for i := range g.Cells() {
		r.Set(grid.Cell{Row: i / 7, Col: i % 7}, i)
	}
	sum, next := 0.0, 0
	for v, area := range r.Areas() {
		if v != next {
			t.Fatalf("cell %d comes after %d", v, next)
		}
		sum, next = sum+area, next+1
	}
	if want := g.Box().Area(); next != 35 || math.Abs(sum/want-1) > 1e-12 {
		t.Errorf("%d cells of %v km², want 35 of %v", next, sum, want)
	}
}
