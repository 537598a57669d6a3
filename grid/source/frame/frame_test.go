package frame

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"weekband/grid"
)

func TestPlace(t *testing.T) {
	for _, c := range []struct {
		name       string
		f          Frame
		box        grid.Box
		rows, cols int
		roll, top  int
		notes      int
		err        string
	}{
		{name: "as it is", f: Frame{West: -91, North: 42, StepLon: 0.5, StepLat: 0.25, Rows: 5, Cols: 7},
			box: grid.Box{West: -91, East: -87.5, North: 42, South: 40.75}, rows: 5, cols: 7},
		{name: "part of the circle past 180", f: Frame{West: 269, North: 42, StepLon: 0.5, StepLat: 0.25, Rows: 5, Cols: 7},
			box: grid.Box{West: -91, East: -87.5, North: 42, South: 40.75}, rows: 5, cols: 7},
		{name: "ends at 180", f: Frame{West: 179, North: 1, StepLon: 0.5, StepLat: 1, Rows: 1, Cols: 2},
			box: grid.Box{West: 179, East: 180, North: 1, South: 0}, rows: 1, cols: 2},
		{name: "begins at 180", f: Frame{West: 180, North: 1, StepLon: 0.5, StepLat: 1, Rows: 1, Cols: 2},
			box: grid.Box{West: -180, East: -179, North: 1, South: 0}, rows: 1, cols: 2},
		{name: "across 180", f: Frame{West: 179.5, North: 1, StepLon: 0.5, StepLat: 1, Rows: 1, Cols: 2}, err: "cross the antimeridian"},
		{name: "whole circle from 0", f: Frame{West: 0, North: 90, StepLon: 60, StepLat: 45, Rows: 4, Cols: 6},
			box: grid.Box{West: -180, East: 180, North: 90, South: -90}, rows: 4, cols: 6, roll: 3},
		{name: "whole circle, steps printed short", f: Frame{West: 20, North: 89.99998, StepLon: 0.3333333, StepLat: 0.3333333, Rows: 540, Cols: 1080},
			box: grid.Box{West: -180, East: 180, North: 89.99998, South: -90}, rows: 540, cols: 1080, roll: 480},
		{name: "columns repeated", f: Frame{West: 0, North: 90, StepLon: 60, StepLat: 45, Rows: 4, Cols: 8},
			box: grid.Box{West: -180, East: 180, North: 90, South: -90}, rows: 4, cols: 6, roll: 3, notes: 1},
		// Centres at 0, 60 … 300 and latitudes 90 to −90: the column on 180 and both polar rows go.
		{name: "centres on 0 and on the poles", f: Frame{West: -30, North: 105, StepLon: 60, StepLat: 30, Rows: 7, Cols: 6},
			box: grid.Box{West: -150, East: 150, North: 75, South: -75}, rows: 5, cols: 5, roll: 4, top: 1, notes: 2},
		{name: "steps that do not close the circle", f: Frame{West: 0, North: 90, StepLon: 7, StepLat: 45, Rows: 4, Cols: 52}, err: "not a whole number"},
		{name: "beyond the pole", f: Frame{West: 0, North: 95, StepLon: 1, StepLat: 1, Rows: 4, Cols: 4}, err: "latitudes"},
		{name: "metres", f: Frame{West: 500000, North: 4e6, StepLon: 30, StepLat: 30, Rows: 4, Cols: 4}, err: "not longitudes"},
		{name: "no step", f: Frame{North: 4, StepLat: 1, Rows: 4, Cols: 4}, err: "positive"},
		{name: "tiny step", f: Frame{North: 4, StepLon: 1e-300, StepLat: 1, Rows: 4, Cols: 4}, err: "not longitudes"},
		{name: "NaN", f: Frame{West: math.NaN(), North: 4, StepLon: 1, StepLat: 1, Rows: 4, Cols: 4}, err: "finite"},
		{name: "too many", f: Frame{North: 4, StepLon: 1, StepLat: 1, Rows: 4, Cols: math.MaxInt32}, err: "more than"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Place(c.f)
			if c.err != "" {
				if err == nil || !strings.Contains(err.Error(), c.err) {
					t.Fatalf("error %v, want one with %q", err, c.err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			want, err := grid.New(c.box, c.rows, c.cols)
			if err != nil {
				t.Fatal(err)
			}
			if !p.Grid().Matches(want) {
				t.Errorf("grid %v, want %v", p.Grid(), want)
			}
			if row, col := p.fileRow(0), p.roll; row != c.top || col != c.roll {
				t.Errorf("the first cell is row %d, column %d of the file, want %d, %d", row, col, c.top, c.roll)
			}
			if len(p.Notes()) != c.notes {
				t.Errorf("notes %q", p.Notes())
			}
		})
	}
}

// label reads a file whose cells hold 100 × row + column.
func label(cols int) ReadFile {
	return func(first, rows int, vals []float32, has []bool) error {
		for i := range rows * cols {
			vals[i] = float32(100*(first+i/cols) + i%cols)
			has[i] = i%cols != 1
		}
		return nil
	}
}

func TestRead(t *testing.T) {
	for _, c := range []struct {
		name string
		f    Frame
		want string // rows 1 and 2 of the grid
	}{
		{"as it is", Frame{West: 0, North: 4, StepLon: 1, StepLat: 1, Rows: 4, Cols: 3}, "[100 . 102 200 . 202]"},
		{"south first", Frame{West: 0, North: 4, StepLon: 1, StepLat: 1, Rows: 4, Cols: 3, SouthFirst: true}, "[200 . 202 100 . 102]"},
		{"rolled", Frame{West: 0, North: 4, StepLon: 60, StepLat: 1, Rows: 4, Cols: 6}, "[103 104 105 100 . 102 203 204 205 200 . 202]"},
		{"repeated", Frame{West: 0, North: 4, StepLon: 60, StepLat: 1, Rows: 4, Cols: 8}, "[103 104 105 100 . 102 203 204 205 200 . 202]"},
		{"poles and 180", Frame{West: -30, North: 105, StepLon: 60, StepLat: 30, Rows: 7, Cols: 6}, "[204 205 200 . 202 304 305 300 . 302]"},
		{"poles and 180, south first", Frame{West: -30, North: 105, StepLon: 60, StepLat: 30, Rows: 7, Cols: 6, SouthFirst: true}, "[404 405 400 . 402 304 305 300 . 302]"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Place(c.f)
			if err != nil {
				t.Fatal(err)
			}
			n := 2 * p.Grid().Cols()
			vals, has := make([]float32, n), make([]bool, n)
			if err := p.Read(label(c.f.Cols), 1, 2, vals, has); err != nil {
				t.Fatal(err)
			}
			words := make([]string, n)
			for i, v := range vals {
				if words[i] = "."; has[i] {
					words[i] = fmt.Sprint(v)
				}
			}
			if got := fmt.Sprint(words); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}

func TestReadRefuses(t *testing.T) {
	p, err := Place(Frame{North: 4, StepLon: 1, StepLat: 1, Rows: 4, Cols: 3})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ first, rows, room int }{{-1, 1, 3}, {0, 0, 0}, {3, 2, 6}, {0, 1, 2}, {math.MaxInt, 1, 3}} {
		if err := p.Read(label(3), c.first, c.rows, make([]float32, c.room), make([]bool, c.room)); err == nil {
			t.Errorf("%+v was accepted", c)
		}
	}
}

func ExamplePlace() {
	// A file from 0 to 360 degrees, its six columns numbered from 0.
	p, err := Place(Frame{West: 0, North: 90, StepLon: 60, StepLat: 45, Rows: 4, Cols: 6})
	if err != nil {
		fmt.Println(err)
		return
	}
	numbers := func(_, _ int, vals []float32, has []bool) error {
		for col := range vals {
			vals[col], has[col] = float32(col), true
		}
		return nil
	}
	vals, has := make([]float32, 6), make([]bool, 6)
	if err := p.Read(numbers, 0, 1, vals, has); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(p.Grid())
	fmt.Println("columns of the file from the west:", vals)
	// Output:
	// 4 rows × 6 columns, west -180, south -90, east 180, north 90
	// columns of the file from the west: [3 4 5 0 1 2]
}
