package netcdf

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"weekband/grid/source/frame"
)

// small is a lopsided file: 12 layers of 5 latitudes × 7 longitudes, south
// first, in steps of 0.25 and 0.5 degrees. The value of a cell is 100 × layer
// + 10 × row + column, in the file's order.
func small(version byte, t typ) made {
	m := made{version: version, dims: []madeDim{{"time", 12}, {"lat", 5}, {"lon", 7}}, vars: []madeVar{
		{name: "lat", dims: []int{1}, typ: typFloat, attrs: []madeAttr{textAttr("units", "degrees_north"), textAttr("bounds", "lat_bnds")}},
		{name: "lon", dims: []int{2}, typ: typDouble, attrs: []madeAttr{textAttr("units", "degrees_east")}},
		{name: "time", dims: []int{0}, typ: typDouble, attrs: []madeAttr{textAttr("units", "days since 1-1-1 00:00:00")}},
		{name: "tavg", dims: []int{0, 1, 2}, typ: t, attrs: []madeAttr{textAttr("units", "degC"), textAttr("long_name", "mean air")}},
	}}
	for i := range 5 {
		m.vars[0].data = append(m.vars[0].data, 40.125+0.25*float64(i))
	}
	for i := range 7 {
		m.vars[1].data = append(m.vars[1].data, -90.75+0.5*float64(i))
	}
	for i := range 12 {
		m.vars[2].data = append(m.vars[2].data, 15+30.4*float64(i))
		for k := range 35 {
			m.vars[3].data = append(m.vars[3].data, float64(100*i+10*(k/7)+k%7))
		}
	}
	return m
}

func open(b []byte, variable string) (*File, error) {
	return Open(bytes.NewReader(b), int64(len(b)), "t.nc", Options{Variable: variable})
}

// values reads all rows of a layer; missing cells are NaN.
func values(t testing.TB, f *File, layer int) []float64 {
	t.Helper()
	rows, cols := len(f.lat.values), len(f.lon.values)
	vals, has := make([]float32, rows*cols), make([]bool, rows*cols)
	for first := 0; first < rows; first += 3 {
		n := min(3, rows-first)
		if err := f.Read(layer, first, n, vals[first*cols:], has[first*cols:]); err != nil {
			t.Fatal(err)
		}
	}
	out := make([]float64, len(vals))
	for i, v := range vals {
		if out[i] = float64(v); !has[i] {
			out[i] = math.NaN()
			if v != 0 {
				t.Errorf("cell %d is missing and holds %v", i, v)
			}
		}
	}
	return out
}

func same(a, b []float64) bool {
	return slices.EqualFunc(a, b, func(x, y float64) bool { return x == y || math.IsNaN(x) && math.IsNaN(y) })
}

func TestReadTypesAndVersions(t *testing.T) {
	for _, version := range []byte{1, 2, 5} {
		for typ := typShort; typ <= typUint64; typ++ {
			if typ > typDouble && version != 5 || typ == typUbyte {
				continue
			}
			t.Run(fmt.Sprintf("CDF-%d %v", version, typ), func(t *testing.T) {
				m := small(version, typ)
				f, err := open(m.build(), "")
				if err != nil {
					t.Fatal(err)
				}
				for layer := range 12 {
					if got := values(t, f, layer); !same(got, m.vars[3].data[35*layer:35*layer+35]) {
						t.Fatalf("layer %d: %v", layer, got)
					}
				}
				want := frame.Frame{West: -91, North: 41.25, StepLon: 0.5, StepLat: 0.25, Rows: 5, Cols: 7, SouthFirst: true}
				if got, err := f.Frame(); got != want || err != nil {
					t.Errorf("%+v, %v", got, err)
				}
				info := f.Info()
				if info.Unit != "degC" || info.Variable != "tavg" || info.LongName != "mean air" || info.Version != int(version) || f.Count() != 12 {
					t.Errorf("%+v", info)
				}
				if want := []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}; !slices.Equal(info.Months, want) {
					t.Errorf("months %v", info.Months)
				}
			})
		}
	}
}

// TestReadRecords reads layers that are records: alone, when odd sizes are not
// padded, and beside another record variable, when they are.
func TestReadRecords(t *testing.T) {
	for _, version := range []byte{1, 2, 5} {
		for _, beside := range []bool{false, true} {
			for _, records := range []int{12, -1} {
				m := small(version, typShort)
				m.dims[0].length, m.records = 0, records
				m.vars[3].dims = []int{0, 1, 2}
				if !beside {
					m.vars = slices.Delete(m.vars, 2, 3)
				}
				f, err := open(m.build(), "")
				if err != nil {
					t.Fatal(err)
				}
				if f.Count() != 12 {
					t.Fatalf("%d layers", f.Count())
				}
				data := m.vars[len(m.vars)-1].data
				for layer := range 12 {
					if got := values(t, f, layer); !same(got, data[35*layer:35*layer+35]) {
						t.Fatalf("CDF-%d, beside %v, records %d, layer %d: %v", version, beside, records, layer, got)
					}
				}
			}
		}
	}
}

func TestReadMissingAndPacked(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		name  string
		typ   typ
		attrs []madeAttr
		raw   []float64
		want  []float64
	}{
		{"packed", typShort, []madeAttr{numAttr("scale_factor", typDouble, 0.5), numAttr("add_offset", typFloat, 10), numAttr("_FillValue", typShort, -999)},
			[]float64{4, -999, -2, -32767}, []float64{12, nan, 9, -16373.5}},
		{"default fill", typShort, nil, []float64{4, -32767}, []float64{4, nan}},
		{"default fill of floats", typFloat, nil, []float64{4, 9.9692099683868690e+36}, []float64{4, nan}},
		{"both kinds", typFloat, []madeAttr{numAttr("_FillValue", typFloat, 1e20), numAttr("missing_value", typDouble, -99.9)},
			[]float64{1e20, -99.9, 3}, []float64{nan, nan, 3}},
		{"several missing", typInt, []madeAttr{numAttr("missing_value", typInt, 7, 8, 9)}, []float64{6, 7, 8, 9, 10}, []float64{6, nan, nan, nan, 10}},
		{"range", typFloat, []madeAttr{numAttr("valid_range", typFloat, -5, 5)}, []float64{-5.5, -5, 5, 5.5}, []float64{nan, -5, 5, nan}},
		{"range in packed numbers", typShort, []madeAttr{numAttr("valid_min", typShort, 0), numAttr("valid_max", typShort, 9), numAttr("scale_factor", typFloat, 0.5)},
			[]float64{-1, 0, 9, 10}, []float64{nan, 0, 4.5, nan}},
		{"not numbers", typDouble, nil, []float64{nan, math.Inf(1), math.Inf(-1), 1e300, 2}, []float64{nan, nan, nan, nan, 2}},
		{"not numbers, float", typFloat, nil, []float64{nan, math.Inf(1), math.Inf(-1), 2}, []float64{nan, nan, nan, 2}},
		{"unsigned", typByte, []madeAttr{textAttr("_Unsigned", "true"), numAttr("_FillValue", typByte, -1)}, []float64{-2, -1, 3}, []float64{254, nan, 3}},
		{"signed bytes", typByte, nil, []float64{-128, -1, 3}, []float64{-128, -1, 3}},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := small(1, c.typ)
			m.vars[3].attrs = c.attrs
			m.vars[3].data = make([]float64, 12*35)
			copy(m.vars[3].data, c.raw)
			f, err := open(m.build(), "")
			if err != nil {
				t.Fatal(err)
			}
			if got := values(t, f, 0)[:len(c.want)]; !same(got, c.want) {
				t.Errorf("%v, want %v", got, c.want)
			}
		})
	}
}

func TestChoose(t *testing.T) {
	two := small(1, typFloat)
	two.vars = append(two.vars, two.vars[3])
	two.vars[4].name = "tmin"
	level := small(1, typFloat)
	level.dims = append(level.dims, madeDim{"level", 1})
	level.vars[3].dims = []int{0, 3, 1, 2}
	inner := small(1, typFloat) // a level of one outside the time
	inner.dims = append(inner.dims, madeDim{"level", 1})
	inner.vars[3].dims = []int{3, 0, 1, 2}
	levels := small(1, typFloat)
	levels.dims[0].length = 6
	levels.vars[2].data = levels.vars[2].data[:6]
	levels.dims = append(levels.dims, madeDim{"level", 2})
	levels.vars[3].dims = []int{0, 3, 1, 2}
	flat := small(1, typFloat)
	flat.vars[3].dims, flat.vars[3].data = []int{1, 2}, flat.vars[3].data[:35]
	turned := small(1, typFloat)
	turned.vars[3].dims = []int{0, 2, 1}
	projected := small(1, typFloat)
	projected.vars[0].attrs = []madeAttr{textAttr("units", "m"), textAttr("standard_name", "projection_y_coordinate")}
	projected.vars[1].attrs = []madeAttr{textAttr("units", "m"), textAttr("standard_name", "projection_x_coordinate")}
	byName := small(1, typFloat)
	byName.vars[0].attrs, byName.vars[1].attrs = nil, []madeAttr{textAttr("units", "degrees"), textAttr("axis", "X")}
	for _, c := range []struct {
		name     string
		m        made
		variable string
		count    int
		err      string
	}{
		{"only one", small(1, typFloat), "", 12, ""},
		{"named", two, "tmin", 12, ""},
		{"two", two, "", 0, "name one of tavg(time=12, lat=5, lon=7) in degC, tmin("},
		{"not there", two, "tmax", 0, `no variable "tmax"; the file has lat(lat=5) in degrees_north`},
		{"a coordinate", two, "lat", 0, "last two dimensions"},
		{"level of one", level, "", 12, ""},
		{"level of one outside", inner, "", 12, ""},
		{"two levels", levels, "", 0, "more than one dimension"},
		{"no time", flat, "", 1, ""},
		{"turned", turned, "", 0, "no variable whose last two dimensions"},
		{"turned and named", turned, "tavg", 0, "rearrange"},
		{"projected", projected, "", 0, "projected"},
		{"projected and named", projected, "tavg", 0, "projected"},
		{"coordinates by name and axis", byName, "", 12, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, err := open(c.m.build(), c.variable)
			if c.err != "" {
				if err == nil || !strings.Contains(err.Error(), c.err) {
					t.Errorf("error %v, want one with %q", err, c.err)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if f.Count() != c.count {
				t.Errorf("%d layers, want %d", f.Count(), c.count)
			}
			if got := values(t, f, c.count-1); got[8] != float64(100*(c.count-1)+11) {
				t.Errorf("%v", got)
			}
		})
	}
}

// TestGaussian uses the first latitudes of the T62 Gaussian grid, 94 rows, in
// degrees: roots of the Legendre polynomial P94.
func TestGaussian(t *testing.T) {
	m := small(1, typFloat)
	m.vars[0].data = []float64{88.542, 86.6531, 84.7532, 82.8508, 80.9473}
	f, err := open(m.build(), "")
	if err != nil {
		t.Fatal(err)
	}
	_, err = f.Frame()
	e, ok := errors.AsType[*UnevenError](err)
	if !ok || e.Axis != "lat" || len(e.Lats) != 5 || len(e.Lons) != 7 || !strings.Contains(e.Error(), "Gaussian") {
		t.Errorf("%T %v", err, err)
	}
}

func TestFrameRounding(t *testing.T) {
	m := small(1, typFloat)
	for i := range m.vars[1].data { // 1/24 degree in four decimals
		m.vars[1].data[i] = math.Round((-124.6875+float64(i)/24)*1e4) / 1e4
		m.vars[0].data = []float64{49.3542, 49.3125, 49.2708, 49.2292, 49.1875}
	}
	f, err := open(m.build(), "")
	if err != nil {
		t.Fatal(err)
	}
	if got, err := f.Frame(); err != nil || math.Abs(got.West+124.7083) > 1e-4 || got.SouthFirst {
		t.Errorf("%+v, %v", got, err)
	}
	m.vars[1].data = []float64{358.5, 359, 359.5, 0, 0.5, 1, 1.5} // starts again at 0
	if f, err = open(m.build(), ""); err != nil {
		t.Fatal(err)
	}
	if got, err := f.Frame(); err != nil || got.West != 358.25 || got.StepLon != 0.5 {
		t.Errorf("%+v, %v", got, err)
	}
	slices.Reverse(m.vars[1].data)
	if f, err = open(m.build(), ""); err != nil {
		t.Fatal(err)
	}
	if _, err := f.Frame(); err == nil {
		t.Error("falling longitudes were accepted")
	}
}

func TestMonths(t *testing.T) {
	for _, c := range []struct {
		units, calendar string
		times           []float64
		want            []int
	}{
		// NOAA PSL writes long-term means in year 1 of the mixed calendar:
		// hours from 1800 back to 1 January 1 (ncdump -h of air.mon.ltm).
		{"hours since 1800-01-01 00:00:0.0", "", []float64{-15769752, -15769008, -15768336}, []int{1, 2, 3}},
		{"days since 1800-1-1", "standard", []float64{-657073, -657042, -657014}, []int{1, 2, 3}},
		{"days since 1582-10-04", "gregorian", []float64{0, 1, 17, 18}, []int{10, 10, 10, 11}}, // 4, 15, 31 October, 1 November
		{"days since 2000-02-28", "proleptic_gregorian", []float64{0, 1, 2}, []int{2, 2, 3}},
		{"days since 1900-02-28", "proleptic_gregorian", []float64{0, 1, 2}, []int{2, 3, 3}},
		{"days since 1900-02-28", "julian", []float64{0, 1, 2}, []int{2, 2, 3}},
		{"days since 2000-02-28", "noleap", []float64{0, 1, -59, 365 + 306}, []int{2, 3, 12, 12}},
		{"days since 2000-02-28", "366_day", []float64{0, 1, 2}, []int{2, 2, 3}},
		{"days since 2000-12-30", "360_day", []float64{0, 1, 31, -330}, []int{12, 1, 2, 1}},
		{"seconds since 1970-01-01T00:00:00Z", "", []float64{951782399, 951782400 + 86400}, []int{2, 3}}, // 28 Feb 23:59:59 and 1 Mar 2000 UTC
		{"minutes since 1999-12-31 23:30", "", []float64{29, 30}, []int{12, 1}},
		{"months since 2000-11-15", "", []float64{0, 1, 2, -11}, []int{11, 12, 1, 12}},
		{"fortnights since 2000-01-01", "", []float64{0}, nil},
		{"days since 2000-13-01", "", []float64{0}, nil},
		{"days since then", "", []float64{0}, nil},
		{"month", "", []float64{0}, nil},
		{"days since 2000-01-01", "lunar", []float64{0}, nil},
		{"days since 2000-01-01", "", []float64{1e300}, nil},
	} {
		t.Run(c.units+" "+c.calendar, func(t *testing.T) {
			m := small(1, typFloat)
			n := max(len(c.times), 2)
			for len(c.times) < n {
				c.times = append(c.times, c.times[0])
			}
			m.dims[0].length = n
			m.vars[2].data, m.vars[3].data = c.times, m.vars[3].data[:35*n]
			m.vars[2].attrs = []madeAttr{textAttr("units", c.units), textAttr("calendar", c.calendar)}
			f, err := open(m.build(), "")
			if err != nil {
				t.Fatal(err)
			}
			if got := f.Info().Months; !slices.Equal(got, c.want) {
				t.Errorf("months %v, want %v", got, c.want)
			}
		})
	}
}

// TestMonthOfOneLayer reads the month of a file with a single layer.
func TestMonthOfOneLayer(t *testing.T) {
	m := small(1, typFloat)
	m.dims[0].length, m.vars[2].data, m.vars[3].data = 1, []float64{75}, m.vars[3].data[:35]
	f, err := open(m.build(), "")
	if err != nil {
		t.Fatal(err)
	}
	if got := f.Info().Months; !slices.Equal(got, []int{3}) {
		t.Errorf("months %v", got)
	}
}

func Example() {
	b := small(1, typFloat).build() // made by the tests: 12 months, 5 rows, 7 columns
	f, err := Open(bytes.NewReader(b), int64(len(b)), "normals.nc", Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	vals, has := make([]float32, 7), make([]bool, 7)
	if err := f.Read(2, 1, 1, vals, has); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(f.Info().Variable, "in", f.Info().Unit, vals)
	// Output: tavg in degC [210 211 212 213 214 215 216]
}
