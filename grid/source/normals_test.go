package source

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/grid/source/geotiff"
	"weekband/grid/source/netcdf"
	"weekband/grid/units"
)

// write puts a text into a file of the test's folder.
func write(t testing.TB, dir, name, text string) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// ascGrid returns a grid of 2 rows × 3 columns with the given values.
func ascGrid(values string) string {
	return "ncols 3\nnrows 2\nxllcorner -91\nyllcorner 40\ndx 0.5\ndy 0.25\nNODATA_value -1\n" + values + "\n"
}

// monthly is the value of month m, 1 to 12, in the files of months.
func monthly(m int) float64 { return float64(2*m) + 0.5 }

// months writes 12 files with names by name, the fields 1 to 12.
func months(t testing.TB, name func(m int) string) []string {
	dir := t.TempDir()
	var paths []string
	for m := 1; m <= 12; m++ {
		v := monthly(m)
		paths = append(paths, write(t, dir, name(m), ascGrid(fmt.Sprintf("%g %g -1\n%g %g %g", v, v-9, v, v, v))))
	}
	return paths
}

func number(m int) string { return fmt.Sprintf("tavg_%02d.asc", m) }

func TestNormalsOrder(t *testing.T) {
	names := []string{"", "jan", "february", "Mar", "april", "may", "JUN", "july", "aug", "sept", "oct", "nov", "december"}
	for _, c := range []struct {
		name  string
		of    func(m int) string
		notes int
	}{
		{"numbers", number, 0},
		{"numbers without zeros", func(m int) string { return fmt.Sprintf("tavg%d.asc", m) }, 0},
		{"numbers among others", func(m int) string { return fmt.Sprintf("v2.1_1991-2020_10m_%d.asc", m) }, 0},
		{"names", func(m int) string { return "tavg-" + names[m] + "-1991.asc" }, 0},
		{"no numbers", func(m int) string { return "tavg" + string(rune('a'+m)) + ".asc" }, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			paths := months(t, c.of)
			slices.Reverse(paths)
			n, err := OpenNormals(paths, NormalsOptions{})
			if err != nil {
				t.Fatal(err)
			}
			defer n.Close()
			if len(n.Notes()) != c.notes {
				t.Errorf("notes %q", n.Notes())
			}
			var r Rows
			if err := n.Read(0, 2, &r); err != nil {
				t.Fatal(err)
			}
			for m := range 12 {
				if r.Vals[m][4] != float32(monthly(m+1)) {
					t.Errorf("month %d: %v", m+1, r.Vals[m][4])
				}
			}
		})
	}
}

// oneLayer returns the bytes of a GeoTIFF on the grid of ascGrid.
func oneLayer(t testing.TB, unit string) string {
	g, err := grid.New(grid.Box{West: -91, South: 40, East: -89.5, North: 40.5}, 2, 3)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	rows := func(_, _, _ int, vals []float32, has []bool) error {
		for i := range vals {
			vals[i], has[i] = 50, true
		}
		return nil
	}
	if err := geotiff.Encode(&b, g, 1, rows, geotiff.WriteOptions{Unit: unit}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestNormalsErrors(t *testing.T) {
	good := func(t *testing.T) []string { return months(t, number) }
	for _, c := range []struct {
		name  string
		paths func(t *testing.T) []string
		opts  NormalsOptions
		err   []string
	}{
		{"none", func(t *testing.T) []string { return nil }, NormalsOptions{}, []string{"no files"}},
		{"eleven", func(t *testing.T) []string { return slices.Delete(good(t), 4, 5) }, NormalsOptions{}, []string{"11 files", "by the names, May is missing"}},
		{"one of one layer", func(t *testing.T) []string { return good(t)[:1] }, NormalsOptions{}, []string{"1 layers"}},
		{"twice", func(t *testing.T) []string { p := good(t); p[6] = p[2]; return p }, NormalsOptions{}, []string{"both March", "July is missing"}},
		{"not there", func(t *testing.T) []string { p := good(t); p[6] += "x"; return p }, NormalsOptions{}, []string{"tavg_07.ascx"}},
		{"other grid", func(t *testing.T) []string {
			p := good(t)
			write(t, filepath.Dir(p[3]), "tavg_04.asc", strings.Replace(ascGrid("1 2 3 4 5 6"), "-91", "-90", 1))
			return p
		}, NormalsOptions{}, []string{"tavg_04.asc: its grid is not that of", "west -90", "west -91"}},
		{"other unit", func(t *testing.T) []string {
			p := good(t)
			write(t, filepath.Dir(p[8]), "tavg_09.asc", oneLayer(t, "degF"))
			return p
		}, NormalsOptions{}, []string{`tavg_09.asc: its unit is "degF"`}},
		{"unit unknown", good, NormalsOptions{Unit: "R"}, []string{`"R"`}},
		{"deviations without unit", good, NormalsOptions{Deviation: true}, []string{"unit of deviations"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := OpenNormals(c.paths(t), c.opts)
			for _, want := range c.err {
				if err == nil || !strings.Contains(err.Error(), want) {
					t.Errorf("error %v, want one with %q", err, want)
				}
			}
		})
	}
}

func TestNormalsRead(t *testing.T) {
	n, err := OpenNormals(months(t, number), NormalsOptions{Unit: "F"})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	var r Rows
	if err := n.Read(0, 2, &r); err != nil {
		t.Fatal(err)
	}
	// 14.5 °F in July is −9.7222 °C; one cell has no value in any month.
	if got := r.Vals[6][0]; got != float32((14.5-32)/1.8) {
		t.Errorf("%v", got)
	}
	if want := []bool{true, true, false, true, true, true}; !slices.Equal(r.Has, want) || r.Partial != 0 {
		t.Errorf("%v, %d partial", r.Has, r.Partial)
	}
	if err := n.Read(1, 2, &r); err == nil {
		t.Error("rows beyond the grid were read")
	}
	if allocs := testing.AllocsPerRun(20, func() {
		if err := n.Read(1, 1, &r); err != nil {
			t.Fatal(err)
		}
	}); allocs > 0 && !raceDetector { // with it, pools forget at random
		t.Errorf("%v allocations", allocs)
	}
}

// TestNormalsLayerNames reads one file whose bands begin with December.
func TestNormalsLayerNames(t *testing.T) {
	g, err := grid.New(grid.Box{West: -91, South: 40, East: -89.5, North: 40.5}, 2, 3)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name  string
		names []string
		first float32 // of January
		notes int
	}{
		{"December first", strings.Fields("December January February March April May June July August September October November"), 1, 0},
		{"no names", nil, 0, 0},
		{"a month twice", strings.Fields("January January February March April May June July August September October November"), 0, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			err := geotiff.Encode(&b, g, 12, func(layer, _, _ int, vals []float32, has []bool) error {
				for i := range vals {
					vals[i], has[i] = float32(layer), true
				}
				return nil
			}, geotiff.WriteOptions{Names: c.names})
			if err != nil {
				t.Fatal(err)
			}
			n, err := OpenNormals([]string{write(t, t.TempDir(), "x.tif", b.String())}, NormalsOptions{})
			if err != nil {
				t.Fatal(err)
			}
			defer n.Close()
			var r Rows
			if err := n.Read(0, 1, &r); err != nil {
				t.Fatal(err)
			}
			if r.Vals[0][0] != c.first || len(n.Notes()) != c.notes {
				t.Errorf("January %v, notes %q", r.Vals[0][0], n.Notes())
			}
		})
	}
}

func TestTimeOrder(t *testing.T) {
	n := &Normals{}
	for i := range 12 {
		n.files = append(n.files, &file{told: Description{Months: []int{(i+6)%12 + 1}}}) // from July on
	}
	if order, ok := n.timeOrder(); !ok || !slices.Equal(order, []int{6, 7, 8, 9, 10, 11, 0, 1, 2, 3, 4, 5}) {
		t.Errorf("%v %v", order, ok)
	}
	n.files[3] = n.files[4]
	if order, ok := n.timeOrder(); ok {
		t.Errorf("%v with a month twice", order)
	}
}

func TestNormalsPartial(t *testing.T) {
	paths := months(t, number)
	write(t, filepath.Dir(paths[4]), "tavg_05.asc", ascGrid("-1 5 -1\n5 5 -1"))
	n, err := OpenNormals(paths, NormalsOptions{})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	var r Rows
	if err := n.Read(0, 2, &r); err != nil {
		t.Fatal(err)
	}
	if want := []bool{false, true, false, true, true, false}; !slices.Equal(r.Has, want) || r.Partial != 2 {
		t.Errorf("%v, %d partial", r.Has, r.Partial)
	}
}

func TestNormalsRange(t *testing.T) {
	for _, c := range []struct {
		name, values string
		opts         NormalsOptions
		err          []string
	}{
		{"nodata not named", "1 2 3\n4 -9999 6", NormalsOptions{Unit: "C"}, []string{"tavg_05.asc: row 1, column 1", "-9999 in unit C", "if -9999 stands for a missing cell"}},
		{"Fahrenheit taken for Celsius", "1 2 78\n4 5 6", NormalsOptions{Unit: "C"}, []string{"row 0, column 2 (latitude 40.38, longitude -89.75): 78 in unit C", "unit: F"}},
		{"deviation", "1 2 3\n-4 5 6", NormalsOptions{Unit: "C", Deviation: true}, []string{"deviation -4 in unit C is outside 0 to 40 K"}},
		{"just inside", "-90 60 0 1 1 1", NormalsOptions{Unit: "C"}, nil},
		{"deviation in tenths of Fahrenheit", "18 18 18 18 18 18", NormalsOptions{Unit: "0.1F", Deviation: true}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			var paths []string
			for m := 1; m <= 12; m++ {
				values := "1 1 1 1 1 1"
				if m == 5 {
					values = c.values
				}
				paths = append(paths, write(t, dir, number(m), strings.Replace(ascGrid(values), "-1\n", "-7\n", 1)))
			}
			n, err := OpenNormals(paths, c.opts)
			if err != nil {
				t.Fatal(err)
			}
			defer n.Close()
			var r Rows
			err = n.Read(0, 2, &r)
			for _, want := range c.err {
				if err == nil || !strings.Contains(err.Error(), want) {
					t.Errorf("error %v, want one with %q", err, want)
				}
			}
			if c.err == nil && err != nil {
				t.Error(err)
			}
			if c.opts.Unit == "0.1F" && (r.Vals[4][0] < 0.99999 || r.Vals[4][0] > 1.00001) { // 1.8 °F apart is 1 K
				t.Errorf("%v", r.Vals[4][0])
			}
		})
	}
}

func TestScaleOf(t *testing.T) {
	for text, want := range map[string]units.Scale{
		"K": units.K, "kelvin": units.K, "degK": units.K, "Kelvins": units.K,
		"C": units.C, "degC": units.C, "degrees C": units.C, "degrees_Celsius": units.C, "degree_C": units.C, "celsius": units.C, "°C": units.C, "Deg. C": 0,
		"F": units.F, "degF": units.F, "degrees Fahrenheit": units.F, " °F ": units.F,
		"0.1 degC": units.TenthsC, "0.1*C": units.TenthsC, "°C * 10": units.TenthsC, "0.1 degF": units.TenthsF, "0.1 K": 0,
		"m": 0, "METERS": 0, "": 0, "mm": 0, "deg": 0,
	} {
		if got, ok := scaleOf(text); got != want || ok != (want != 0) {
			t.Errorf("%q: %v %v, want %v", text, got, ok, want)
		}
	}
}

func TestGuess(t *testing.T) {
	for _, c := range []struct {
		name      string
		low, high float64
		whole     bool
		want      units.Scale
		why       string
	}{
		{"a continent in °C", -16.92, 37.11, false, units.C, "look like degrees Celsius"},
		{"the same in °F", 1.5, 98.8, false, units.F, "look like degrees Fahrenheit"},
		{"in kelvins", 233.2, 311.4, false, units.K, "values 233.2 to 311.4 look like kelvins"},
		{"in tenths of °C", -169, 371, true, units.TenthsC, "tenths of a degree Celsius"},
		{"in tenths of °F", 15, 988, true, units.TenthsF, "tenths of a degree Fahrenheit"},
		{"whole °F", 1, 98, true, units.F, "look like"},
		{"tropics in tenths, or whole kelvins", 214, 301, true, 0, "could be kelvins or tenths of a degree Celsius"},
		{"tropics in kelvins", 290.5, 301.2, false, units.K, "kelvins"},
		// Celsius would be too hot and Fahrenheit too cold: -11.9 and 7.5 °C by hand.
		{"neither", 10.5, 45.5, false, 0, "do not look like a year's temperatures on any scale: as Fahrenheit they are -11.9 to 7.5 °C, as Celsius 10.5 to 45.5 °C"},
		{"hundredths", -1692, 3711, true, 0, "do not look like"},
		{"elevation", -80, 4300, true, 0, "do not look like"},
		{"all one missing number", -9999, 30, false, 0, "do not look like"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, why, ok := guess(sampled{count: 10, low: c.low, high: c.high, whole: c.whole})
			if got != c.want || ok != (c.want != 0) || !strings.Contains(why, c.why) {
				t.Errorf("%v %v, %s", got, ok, why)
			}
		})
	}
	if _, why, ok := guess(sampled{}); ok || !strings.Contains(why, "no values") {
		t.Error(why)
	}
}

func TestOpenByContent(t *testing.T) {
	dir := t.TempDir()
	for text, want := range map[string]string{
		"":                         "the file is empty",
		"\x1f\x8b\x08":             "gzip",
		"PK\x03\x04":               "zip",
		"<html>":                   `"<html>" are of no known format`,
		"II*\x00":                  "not a TIFF file",
		"CDF\x04":                  "want CDF and 1, 2 or 5",
		"ncols 4":                  "no nrows",
		"\x89HDF\r\n\x1a\n":        "HDF5",
		strings.Repeat("ncols", 9): `header key "ncolsncols`,
	} {
		path := write(t, dir, "x.tif", text) // the extension does not count
		_, err := Open(path, Options{})
		if err == nil || !strings.Contains(err.Error(), want) || !strings.HasPrefix(err.Error(), path) {
			t.Errorf("%q: error %v, want one with %q", text, err, want)
		}
	}
	if _, err := Open(dir, Options{}); err == nil || !strings.Contains(err.Error(), "not a regular file") {
		t.Error(err)
	}
	if _, err := Open(filepath.Join(dir, "none"), Options{}); !errors.Is(err, os.ErrNotExist) {
		t.Error(err)
	}
}

func TestRealRefused(t *testing.T) {
	_, err := Open(oracle.Data(t, "formats/air-ltm-netcdf4.nc"), Options{})
	if _, ok := errors.AsType[*netcdf.HDF5Error](err); !ok {
		t.Errorf("%T %v", err, err)
	}
	_, err = OpenNormals([]string{oracle.Data(t, "us/elevation-4km.tif")}, NormalsOptions{})
	if err == nil || !strings.Contains(err.Error(), "1 layers; want 12") {
		t.Error(err)
	}
}

// TestChunkRows asks for room in a file with tiles of 16 rows.
func TestChunkRows(t *testing.T) {
	g, err := grid.New(grid.Box{West: -91, East: -84, North: 42, South: 32}, 100, 10)
	if err != nil {
		t.Fatal(err)
	}
	n := &Normals{grid: g, layers: slices.Repeat([]layer{{from: &file{told: Description{BlockRows: 16}}}}, 12)}
	row := int64(10 * (4*12 + 3))
	for _, c := range []struct {
		bytes int64
		want  int
	}{{0, 1}, {row, 1}, {5 * row, 4}, {8 * row, 8}, {15 * row, 8}, {16 * row, 16}, {40 * row, 32}, {1 << 40, 100}} {
		if got := n.ChunkRows(c.bytes); got != c.want {
			t.Errorf("%d rows fit: %d, want %d", c.bytes/row, got, c.want)
		}
	}
}

func ExampleOpenNormals() {
	dir, err := os.MkdirTemp("", "normals")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	file, err := os.Create(filepath.Join(dir, "tavg.tif")) // invented: 12 months, in tenths of °C
	if err != nil {
		fmt.Println(err)
		return
	}
	defer file.Close()
	g, err := grid.New(grid.Box{West: -91, South: 40, East: -89.5, North: 40.5}, 2, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	err = geotiff.Encode(file, g, 12, func(layer, _, _ int, vals []float32, has []bool) error {
		for i := range vals {
			vals[i], has[i] = float32(-45+50*min(layer, 12-layer)), true
		}
		return nil
	}, geotiff.WriteOptions{Store: geotiff.Int16})
	if err != nil {
		fmt.Println(err)
		return
	}
	n, err := OpenNormals([]string{file.Name()}, NormalsOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	defer n.Close()
	var rows Rows
	if err := n.Read(0, 1, &rows); err != nil {
		fmt.Println(err)
		return
	}
	_, why := n.Scale()
	fmt.Println(why)
	fmt.Println("July:", rows.Vals[6], rows.Has)
	// Output:
	// values -45 to 255 look like tenths of a degree Celsius
	// July: [25.5 25.5 25.5] [true true true]
}

// daily is a data set of as many layers as days, each holding its number.
type daily struct {
	Layers
	days int
}

func (d daily) Count() int            { return d.days }
func (d daily) Describe() Description { return Description{Name: "daily"} }

// Of 366 days 29 February is left out, so that 1 March follows 28 February.
func TestLeapDayIsLeftOut(t *testing.T) {
	order, note, err := layerOrder(daily{days: 366})
	if err != nil || len(order) != 365 || order[58] != 58 || order[59] != 60 || order[364] != 365 || note == "" {
		t.Errorf("%d layers, %v, note %q, %v", len(order), order[57:62], note, err)
	}
	if order, note, err := layerOrder(daily{days: 365}); err != nil || len(order) != 365 || note != "" {
		t.Errorf("%d layers, note %q, %v", len(order), note, err)
	}
}
