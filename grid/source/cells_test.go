package source

import (
	"encoding/binary"
	"math"
	"os"
	"path/filepath"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
)

// raw returns the cells of band 1 of a file as GDAL reads them, row by row.
func raw(t *testing.T, path string) []float32 {
	t.Helper()
	out := filepath.Join(t.TempDir(), "cells.dat")
	oracle.Run(t, nil, "gdal_translate", "-q", "-of", "ENVI", "-ot", "Float32", "-b", "1", path, out)
	b, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	vals := make([]float32, len(b)/4)
	for i := range vals {
		vals[i] = math.Float32frombits(binary.LittleEndian.Uint32(b[4*i:]))
	}
	return vals
}

// Every cell of a national January normal and of a terrain, tiled and
// deflated, is what GDAL reads there.
func TestRealGeoTIFFsCellByCell(t *testing.T) {
	for _, name := range []string{"formats/january-normal-4km.tif", "us/elevation-4km.tif"} {
		path := oracle.Data(t, name)
		l := mustOpen(t, path)
		vals, has := whole(t, l, 0)
		want := raw(t, path)
		if len(want) != len(vals) {
			t.Fatalf("%s: %d cells, GDAL has %d", name, len(vals), len(want))
		}
		land := 0
		for i, v := range vals {
			missing := want[i] != want[i] || want[i] <= -9999 || math.Abs(float64(want[i])) > 1e30
			if has[i] == missing || has[i] && v != want[i] {
				t.Fatalf("%s, cell %d: %v %v, GDAL says %v", name, i, v, has[i], want[i])
			}
			if has[i] {
				land++
			}
		}
		if land < 100000 {
			t.Errorf("%s: %d cells have a value", name, land)
		}
	}
}

// Every cell of the 20' relief, NetCDF classic with longitudes past 360, is
// what GDAL reads at its place.
func TestRealReliefCellByCell(t *testing.T) {
	path := oracle.Data(t, "formats/etopo20-netcdf-classic.cdf")
	l, err := Open(path, Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	g := l.Grid()
	vals, has := whole(t, l, 0)
	want := raw(t, path)
	const west, north, step, cols = 20.0, 90.0, 1.0 / 3, 1081 // as gdalinfo tells
	for i, v := range vals {
		p := g.Center(grid.Cell{Row: i / g.Cols(), Col: i % g.Cols()})
		lon := p.Lon
		for lon < west {
			lon += 360
		}
		col := int((lon - west) / step)
		row := int((north - p.Lat) / step)
		k := row*cols + col
		if !has[i] || v != want[k] {
			t.Fatalf("%v: %v %v, GDAL says %v", p, v, has[i], want[k])
		}
	}
}
