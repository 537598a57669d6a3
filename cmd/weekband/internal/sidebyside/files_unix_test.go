//go:build unix

package sidebyside

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"weekband/grid"
	"weekband/grid/source"
	"weekband/grid/source/geotiff"
	"weekband/grid/weeks"
)

// reading compares the way from twelve files of whole numbers to °C.
func reading(t *testing.T, e *expanse, s size, runs int) row {
	var got memory
	ours := best(t, runs, func() error {
		n, err := source.OpenNormals(e.paths, source.NormalsOptions{})
		if err != nil {
			return err
		}
		defer n.Close()
		got.grid = n.Grid()
		return readHalves(n, &got.rows)
	})
	theirs := script(t, python(t), "files.py", "read", e.dir, fmt.Sprint(threads), fmt.Sprint(runs), fmt.Sprint(s.rows), fmt.Sprint(s.cols))
	values := readFloats(t, filepath.Join(e.dir, "read.f32"))
	if len(values) != 12*len(got.rows.Has) {
		t.Fatalf("%d values of twelve months of %d cells", len(values), len(got.rows.Has))
	}
	for i, v := range values {
		m, cell := i/len(got.rows.Has), i%len(got.rows.Has)
		if want := got.rows.Vals[m][cell]; got.rows.Has[cell] != !math.IsNaN(float64(v)) || got.rows.Has[cell] && math.Abs(float64(v-want)) > 1e-5 {
			t.Fatalf("month %d, cell %d: %g °C, GDAL reads %g", m+1, cell, want, v)
		}
	}
	return row{"reading normals", fmt.Sprintf("12 GeoTIFF of %v, int16, deflate", s), ours, theirs.cost, theirs.Tools, "every value, to 1e-5 °C"}
}

// readHalves reads all rows of normals, a part of them in each thread.
func readHalves(n *source.Normals, all *source.Rows) error {
	g := n.Grid()
	all.Reset(n.Layers(), g.Cells())
	errs := make([]error, threads)
	var wait sync.WaitGroup
	const step = 64
	for k := range threads {
		wait.Go(func() {
			var part source.Rows
			for first := k * step; first < g.Rows() && errs[k] == nil; first += threads * step {
				errs[k] = n.Read(first, min(step, g.Rows()-first), &part)
				for m, vals := range part.Vals {
					copy(all.Vals[m][first*g.Cols():], vals)
				}
				copy(all.Has[first*g.Cols():], part.Has)
			}
		})
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// writing compares writing the crossing days as a file that both can read.
func writing(t *testing.T, e *expanse, s size, runs int, f *weeks.Field) row {
	path := filepath.Join(e.dir, "ours.tif")
	ours := best(t, runs, func() error { return writeDays(path, f.Day) })
	days := flat(f.Day)
	writeFloats(t, filepath.Join(e.dir, "days.f32"), days)
	theirs := script(t, python(t), "files.py", "write", e.dir, fmt.Sprint(threads), fmt.Sprint(runs), fmt.Sprint(s.rows), fmt.Sprint(s.cols))
	read := map[string][]float32{"GDAL reads in our file": readFloats(t, filepath.Join(e.dir, "read.f32")), "weekband in GDAL's": readDays(t, filepath.Join(e.dir, "theirs.tif"))}
	for what, got := range read {
		for i, want := range days {
			if got[i] != want && !(math.IsNaN(float64(want)) && math.IsNaN(float64(got[i]))) {
				t.Fatalf("cell %d: %g, %s %g", i, want, what, got[i])
			}
		}
	}
	agree := "every bit; " + sizes(t, path, filepath.Join(e.dir, "theirs.tif"))
	return row{"writing days", fmt.Sprintf("GeoTIFF of %v, float32, deflate", s), ours, theirs.cost, theirs.Tools, agree}
}

// sizes tells how large our file and theirs are.
func sizes(t *testing.T, ours, theirs string) string {
	t.Helper()
	var mb [2]float64
	for k, path := range []string{ours, theirs} {
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		mb[k] = float64(info.Size()) / 1e6
	}
	return fmt.Sprintf("%.2f and %.2f MB", mb[0], mb[1])
}

// writeDays writes a raster as a build does.
func writeDays(path string, r *grid.Raster[float32]) error {
	out, err := os.Create(path)
	if err != nil {
		return err
	}
	defer out.Close()
	return geotiff.Encode(out, r.Grid(), 1, func(_, first, n int, vals []float32, has []bool) error {
		for row := range n {
			v, h := r.Row(first + row)
			copy(vals[row*len(v):], v)
			copy(has[row*len(h):], h)
		}
		return nil
	}, geotiff.WriteOptions{})
}

// readDays reads a file of one layer, NaN for none.
func readDays(t *testing.T, path string) []float32 {
	t.Helper()
	l, err := source.Open(path, source.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	g := l.Grid()
	vals, has := make([]float32, g.Cells()), make([]bool, g.Cells())
	if err := l.Read(0, 0, g.Rows(), vals, has); err != nil {
		t.Fatal(err)
	}
	for i, ok := range has {
		if !ok {
			vals[i] = float32(math.NaN())
		}
	}
	return vals
}

// flat returns the values of a raster, NaN for none.
func flat(r *grid.Raster[float32]) []float32 {
	var out []float32
	for row := range r.Grid().Rows() {
		vals, has := r.Row(row)
		for i, v := range vals {
			if !has[i] {
				v = float32(math.NaN())
			}
			out = append(out, v)
		}
	}
	return out
}
