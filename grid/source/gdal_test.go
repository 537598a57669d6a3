package source

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
)

// gdal runs one of GDAL's programs (gdal.org), the reference these tests
// compare with. It skips when GDAL is not installed.
func gdal(t testing.TB, program string, args ...string) string {
	t.Helper()
	return string(oracle.Run(t, nil, program, args...))
}

// whole reads a layer.
func whole(t testing.TB, l Layers, layer int) ([]float32, []bool) {
	t.Helper()
	g := l.Grid()
	vals, has := make([]float32, g.Cells()), make([]bool, g.Cells())
	if err := l.Read(layer, 0, g.Rows(), vals, has); err != nil {
		t.Fatal(err)
	}
	return vals, has
}

func mustOpen(t testing.TB, path string) Layers {
	t.Helper()
	l, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { l.Close() })
	return l
}

// TestRealCells compares cells of open data with gdallocationinfo, which
// looks them up by position.
func TestRealCells(t *testing.T) {
	for _, c := range []struct {
		file string
		band int
		at   []grid.LonLat
	}{
		{"us/normals-10min.tif", 1, []grid.LonLat{{Lon: -88.42, Lat: 40.11}, {Lon: -105.3, Lat: 39.72}, {Lon: -80.91, Lat: 26.08}, {Lon: -124.95, Lat: 49.45}}},
		{"us/normals-10min.tif", 7, []grid.LonLat{{Lon: -88.42, Lat: 40.11}, {Lon: -66.55, Lat: 24.55}, {Lon: -120.07, Lat: 46.63}}},
		{"us/elevation-4km.tif", 1, []grid.LonLat{{Lon: -105.31, Lat: 39.73}, {Lon: -70.01, Lat: 24.5}, {Lon: -116.82, Lat: 36.23}}},
		{"formats/january-normal-4km.tif", 1, []grid.LonLat{{Lon: -88.42, Lat: 40.11}, {Lon: -67.02, Lat: 44.83}, {Lon: -124.7, Lat: 49.37}, {Lon: -97.51, Lat: 25.94}}},
		{"formats/etopo20-netcdf-classic.cdf", 1, []grid.LonLat{{Lon: 86.93, Lat: 27.99}, {Lon: 179.9, Lat: -0.1}, {Lon: 20.4, Lat: 89.9}}},
	} {
		path := oracle.Data(t, c.file)
		l := mustOpen(t, path)
		vals, has := whole(t, l, c.band-1)
		for _, p := range c.at {
			text := strings.TrimSpace(gdal(t, "gdallocationinfo", "-valonly", "-geoloc", "-b", strconv.Itoa(c.band), path, fmt.Sprint(p.Lon), fmt.Sprint(p.Lat)))
			want, err := strconv.ParseFloat(text, 32)
			cell, ok := l.Grid().Locate(p)
			if err != nil || !ok {
				t.Fatalf("%s at %v: %q, %v", c.file, p, text, ok)
			}
			i := cell.Row*l.Grid().Cols() + cell.Col
			missing := want != want || want == -9999 || want == -32768
			if has[i] == missing || has[i] && vals[i] != float32(want) {
				t.Errorf("%s at %v: %v %v, GDAL has %v", c.file, p, vals[i], has[i], want)
			}
		}
	}
}

// TestRealWest looks up the Americas in the file whose longitudes run from 20
// to 380: GDAL is asked 360 degrees further east.
func TestRealWest(t *testing.T) {
	path := oracle.Data(t, "formats/etopo20-netcdf-classic.cdf")
	l := mustOpen(t, path)
	vals, _ := whole(t, l, 0)
	for _, p := range []grid.LonLat{{Lon: -70.01, Lat: -32.65}, {Lon: -179.9, Lat: 20.1}, {Lon: -0.1, Lat: 51.5}, {Lon: 19.9, Lat: -33.1}} {
		text := gdal(t, "gdallocationinfo", "-valonly", "-geoloc", path, fmt.Sprint(p.Lon+360), fmt.Sprint(p.Lat))
		want, err := strconv.ParseFloat(strings.TrimSpace(text), 32)
		cell, _ := l.Grid().Locate(p)
		if got := vals[cell.Row*l.Grid().Cols()+cell.Col]; err != nil || got != float32(want) {
			t.Errorf("%v: %v, GDAL has %v", p, got, text)
		}
	}
}

// TestRealThreeFormats converts twelve months with gdal_translate and compares
// every cell.
func TestRealThreeFormats(t *testing.T) {
	tif := oracle.Data(t, "us/normals-10min.tif")
	dir := t.TempDir()
	var asc []string
	for band := 1; band <= 12; band++ {
		name := filepath.Join(dir, fmt.Sprintf("tavg-1981-2010-%d.asc", band))
		gdal(t, "gdal_translate", "-q", "-of", "AAIGrid", "-co", "SIGNIFICANT_DIGITS=9", "-b", strconv.Itoa(band), tif, name)
		asc = append(asc, name)
	}
	nc := filepath.Join(dir, "tavg.nc")
	// One band each in a variable of its own is GDAL's way: Band1 … Band12.
	gdal(t, "gdal_translate", "-q", "-of", "netCDF", "-co", "FORMAT=NC", tif, nc)

	want, err := OpenNormals([]string{tif}, NormalsOptions{})
	if err != nil {
		t.Fatal(err)
	}
	defer want.Close()
	got, err := OpenNormals(asc, NormalsOptions{})
	if err != nil {
		t.Fatal(err)
	}
	defer got.Close()
	if !got.Grid().Matches(want.Grid()) {
		t.Errorf("grid %v, want %v", got.Grid(), want.Grid())
	}
	var a, b Rows
	for first := 0; first < want.Grid().Rows(); first += 7 {
		n := min(7, want.Grid().Rows()-first)
		if err := want.Read(first, n, &a); err != nil {
			t.Fatal(err)
		}
		if err := got.Read(first, n, &b); err != nil {
			t.Fatal(err)
		}
		for i, ok := range a.Has {
			if b.Has[i] != ok {
				t.Fatalf("rows from %d, cell %d: %v, want %v", first, i, b.Has[i], ok)
			}
			for m := range 12 {
				if ok && a.Vals[m][i] != b.Vals[m][i] {
					t.Fatalf("month %d, rows from %d, cell %d: %v, want %v", m+1, first, i, b.Vals[m][i], a.Vals[m][i])
				}
			}
		}
	}
	t.Run("NetCDF", func(t *testing.T) {
		for m := range 12 {
			l, err := Open(nc, Options{Variable: fmt.Sprintf("Band%d", m+1)})
			if err != nil {
				t.Fatal(err)
			}
			defer l.Close()
			if !l.Grid().Matches(want.Grid()) {
				t.Errorf("grid %v, want %v", l.Grid(), want.Grid())
			}
			vals, has := whole(t, l, 0)
			wantVals, wantHas := whole(t, mustOpen(t, tif), m)
			for i := range vals {
				if vals[i] != wantVals[i] || has[i] != wantHas[i] {
					t.Fatalf("month %d, cell %d: %v %v, want %v %v", m+1, i, vals[i], has[i], wantVals[i], wantHas[i])
				}
			}
		}
	})
	stack, err := Open(nc, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer stack.Close()
	if stack.Count() != 12 {
		t.Errorf("the twelve variables together have %d layers", stack.Count())
	}
	vals, has := whole(t, stack, 11)
	wantVals, wantHas := whole(t, mustOpen(t, tif), 11)
	if !slices.Equal(vals, wantVals) || !slices.Equal(has, wantHas) {
		t.Error("the last of them is not December")
	}
}
