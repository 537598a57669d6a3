package source

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/grid/source/geotiff"
	"weekband/grid/source/netcdf"
)

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
