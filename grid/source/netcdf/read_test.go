package netcdf

import (
	"bytes"
	"fmt"
	"math"
	"slices"
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
