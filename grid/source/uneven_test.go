package source

import (
	"errors"
	"math"
	"strings"
	"testing"

	"weekband/grid/source/netcdf"
)

// rowsOf is a decoder of one layer whose value is the latitude of the row; the
// row numbered hole has no values.
type rowsOf struct {
	lats []float64
	cols int
	hole int
}

func (d rowsOf) Count() int { return 1 }
func (d rowsOf) Read(_, first, rows int, vals []float32, has []bool) error {
	for i := range rows * d.cols {
		vals[i], has[i] = float32(d.lats[first+i/d.cols]), first+i/d.cols != d.hole
	}
	return nil
}

// The latitudes of a Gaussian grid of 8 rows: arcsines of the roots of the
// Legendre polynomial of degree 8 (Abramowitz & Stegun, table 25.4: 0.183435,
// 0.525532, 0.796666, 0.960290).
func gaussian(southFirst bool) []float64 {
	var lats []float64
	for _, x := range []float64{0.960290, 0.796666, 0.525532, 0.183435, -0.183435, -0.525532, -0.796666, -0.960290} {
		lat := math.Asin(x) * 180 / math.Pi
		if southFirst {
			lat = -lat
		}
		lats = append(lats, lat)
	}
	return lats
}

var lons = []float64{0, 90, 180, 270}

func TestGaussianRowsBecomeEven(t *testing.T) {
	for _, southFirst := range []bool{false, true} {
		lats := gaussian(southFirst)
		e, where, err := even(rowsOf{lats, 4, -1}, &netcdf.UnevenError{Lats: lats, Lons: lons, OnlyLat: true})
		if err != nil {
			t.Fatal(err)
		}
		if where.Rows != 8 || where.SouthFirst != southFirst || math.Abs(where.North-(73.799+0.5*where.StepLat)) > 0.01 {
			t.Errorf("frame %+v", where)
		}
		vals, has := make([]float32, 32), make([]bool, 32)
		if err := e.Read(0, 0, 3, vals, has); err != nil {
			t.Fatal(err)
		}
		if err := e.Read(0, 3, 5, vals[12:], has[12:]); err != nil {
			t.Fatal(err)
		}
		for i, v := range vals {
			// What is linear in latitude comes back at the even latitudes.
			want := lats[0] + (lats[7]-lats[0])*float64(i/4)/7
			if !has[i] || math.Abs(float64(v)-want) > 1e-4 {
				t.Fatalf("element %d is %v (%v), want %v", i, v, has[i], want)
			}
		}
		if !strings.Contains(e.note(), "Gaussian") {
			t.Errorf("note %q", e.note())
		}
	}
}

func TestMissingRowsStayMissing(t *testing.T) {
	lats := gaussian(false)
	e, _, err := even(rowsOf{lats, 1, 3}, &netcdf.UnevenError{Lats: lats, Lons: lons[:2], OnlyLat: true})
	if err != nil {
		t.Fatal(err)
	}
	e.cols = 1
	vals, has := make([]float32, 8), make([]bool, 8)
	if err := e.Read(0, 0, 8, vals, has); err != nil {
		t.Fatal(err)
	}
	for i, ok := range has {
		if want := i != 3; ok != want { // the even row 3 lies nearest to the file's row 3
			t.Errorf("row %d has a value: %v", i, ok)
		}
		if ok && math.Abs(float64(vals[i])-e.want[i]) > 12 {
			t.Errorf("row %d is %v at latitude %v", i, vals[i], e.want[i])
		}
	}
}

func TestOtherUnevenAxesAreRefused(t *testing.T) {
	for name, u := range map[string]*netcdf.UnevenError{
		"longitudes":   {Lats: gaussian(false), Lons: lons},
		"a gap":        {Lats: []float64{10, 9, 8, 4, 3}, Lons: lons, OnlyLat: true},
		"a row less":   {Lats: []float64{10, 9, 8, 6, 5, 4, 3, 2}, Lons: lons, OnlyLat: true},
		"out of order": {Lats: []float64{10, 9, 9.5, 8}, Lons: lons, OnlyLat: true},
		"twice":        {Lats: []float64{10, 9, 9, 8}, Lons: lons, OnlyLat: true},
	} {
		_, _, err := even(rowsOf{u.Lats, 4, -1}, u)
		if _, ok := errors.AsType[*netcdf.UnevenError](err); !ok {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Even rows never reach past a pole, and one that the file has on the pole
// stays there.
func TestEvenRowsEndAtThePoles(t *testing.T) {
	for _, c := range []struct {
		lats                []float64
		north, south, first float64
	}{
		{lats: []float64{89, 40, -8, -60}, north: 90, south: -60 - 149.0/6, first: 90 - (150+149.0/6)/8},
		{lats: []float64{-60, -8, 40, 89}, north: 90, south: -60 - 149.0/6, first: -60 - 149.0/6 + (150+149.0/6)/8},
		{lats: []float64{90, 40, -8, -60}, north: 115, south: -85, first: 90},
	} {
		e, where, err := even(rowsOf{c.lats, 4, -1}, &netcdf.UnevenError{Lats: c.lats, Lons: lons, OnlyLat: true})
		if err != nil {
			t.Fatal(err)
		}
		south := where.North - 4*where.StepLat
		if math.Abs(where.North-c.north) > 1e-9 || math.Abs(south-c.south) > 1e-9 || math.Abs(e.want[0]-c.first) > 1e-9 {
			t.Errorf("%v: rows %v within %v and %v; want %v and %v, first %v", c.lats, e.want, where.North, south, c.north, c.south, c.first)
		}
		vals, has := make([]float32, 16), make([]bool, 16)
		if err := e.Read(0, 0, 4, vals, has); err != nil {
			t.Fatal(err)
		}
		for i, v := range vals { // latitudes come back, held at the outermost rows
			want := min(max(e.want[i/4], min(c.lats[0], c.lats[3])), max(c.lats[0], c.lats[3]))
			if !has[i] || math.Abs(float64(v)-want) > 1e-4 {
				t.Errorf("%v: element %d is %v, want %v", c.lats, i, v, want)
			}
		}
	}
}

// A row takes its presence from the nearest of the file's, and that one's value
// alone where the other has none.
func TestTheNearestRowDecides(t *testing.T) {
	lats := []float64{40, 33, 27, 22, 18} // even ones are 40, 34.5, 29, 23.5, 18
	e, _, err := even(rowsOf{lats, 1, 1}, &netcdf.UnevenError{Lats: lats, Lons: lons, OnlyLat: true})
	if err != nil {
		t.Fatal(err)
	}
	e.cols = 1
	vals, has := make([]float32, 5), make([]bool, 5)
	if err := e.Read(0, 0, 5, vals, has); err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{40, 0, 27, 23.5, 18} {
		if ok := want != 0; has[i] != ok || ok && math.Abs(float64(vals[i])-want) > 1e-5 {
			t.Errorf("row %d: %v %v, want %v", i, vals[i], has[i], want)
		}
	}
}
