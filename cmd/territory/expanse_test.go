package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/source"
	"weekband/grid/source/geotiff"
)

// small is an expanse of 40 × 60 cells with 3 and 12 regions.
func small(t *testing.T, out string) expanse {
	t.Helper()
	e, err := expanseOf([]string{"-rows", "40", "-cols", "60", "-regions", "3,12", "-water", "0.4", "-out", out}, io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// contents returns the bytes of every file below a folder.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		all[filepath.ToSlash(name)] = string(b)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestExpanseIsTheSameWhateverTheWorkers(t *testing.T) {
	var runs []map[string]string
	for _, workers := range []int{1, 3} {
		before := runtime.GOMAXPROCS(workers)
		dir := t.TempDir()
		err := small(t, dir).write(io.Discard)
		runtime.GOMAXPROCS(before)
		if err != nil {
			t.Fatal(err)
		}
		runs = append(runs, contents(t, dir))
	}
	if len(runs[0]) != 12+2+3+1 {
		t.Errorf("%d files; want 12 of normals, 2 of regions, 3 recipes and 1 of places", len(runs[0]))
	}
	for name, text := range runs[0] {
		if runs[1][name] != text {
			t.Errorf("%s differs between 1 and 3 workers", name)
		}
	}
}

// The normals that a build reads are those of the model of seasons, worked
// out here for each cell by itself in double precision, and so much of the
// ground is water as was asked for.
func TestExpanseNormalsFollowTheModel(t *testing.T) {
	dir := t.TempDir()
	e := small(t, dir)
	if err := e.write(io.Discard); err != nil {
		t.Fatal(err)
	}
	paths, err := filepath.Glob(filepath.Join(dir, "normals", "*.tif"))
	if err != nil {
		t.Fatal(err)
	}
	n, err := source.OpenNormals(paths, source.NormalsOptions{})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	g := n.Grid()
	s := newContinent(g, e.water, e.seed).over(g)
	var got source.Rows
	if err := n.Read(0, g.Rows(), &got); err != nil {
		t.Fatal(err)
	}
	dry := 0
	for row := range g.Rows() {
		line := s.row(row)
		lat := g.Center(grid.Cell{Row: row}).Lat
		for col, base := range line.base {
			i := row*g.Cols() + col
			if got.Has[i] != (base > 0) {
				t.Fatalf("row %d, column %d has normals: %t, and the ground is %g above the sea", row, col, got.Has[i], base)
			}
			if base <= 0 {
				continue
			}
			dry++
			for m := range 12 {
				want := monthMean(m, lat, float64(base), float64(line.heart[col]), float64(line.ridge[col]))
				if v := float64(got.Vals[m][i]); math.Abs(v-want) > 0.051 { // half a tenth, and single precision
					t.Fatalf("row %d, column %d, month %d: %.2f °C, want %.3f", row, col, m+1, v, want)
				}
			}
		}
	}
	if water := 1 - float64(dry)/float64(g.Cells()); math.Abs(water-e.water) > 0.03 {
		t.Errorf("%.3f of the cells are water, want %g", water, e.water)
	}
}

// monthMean is the temperature of a month, 0 for January, by the formulas of
// seasons.go, term by term.
func monthMean(m int, lat, base, heart, ridge float64) float64 {
	inland := min(max(2*heart+0.25, 0), 1)
	km := base * (0.5 + 6*max(0, 0.5+ridge)*inland)
	φ := lat * math.Pi / 180
	mean := 28 - 49*math.Pow(math.Sin(φ), 2.3) - 5.5*km
	swing := 28 * math.Pow(math.Sin(φ), 1.4) * (0.45 + 0.75*inland)
	middle := []float64{15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349}[m]
	x := 2 * math.Pi * middle / 365
	sea, land := 2*math.Pi*40/365, 2*math.Pi*17/365 // the coldest days
	once := (1-inland)*math.Cos(x-sea) + inland*math.Cos(x-land)
	return mean - swing*once + 0.8*math.Pow(1-math.Sin(φ), 2)*math.Cos(2*x)
}

// South of the equator the year is turned around.
func TestSeasonsFollowTheSun(t *testing.T) {
	y := year{make([]float32, 1), make([]float32, 1), make([]float32, 1)}
	warmth := func(lat float64, m int) float32 {
		var out [1]float32
		y.month(theMonths()[m], y.read(stretch{dry: []bool{true}, km: []float32{0.2}, inland: []float32{0.5}}, lat), out[:])
		return out[0]
	}
	for _, lat := range []float64{20, 45, 70} {
		if jan, jul := warmth(lat, 0), warmth(lat, 6); jan > jul-8 {
			t.Errorf("latitude %g: January %.1f, July %.1f", lat, jan, jul)
		}
		if jan, jul := warmth(-lat, 0), warmth(-lat, 6); jul > jan-8 {
			t.Errorf("latitude %g: January %.1f, July %.1f", -lat, jan, jul)
		}
	}
}

func TestProvincesShareTheirBorders(t *testing.T) {
	e := small(t, t.TempDir())
	g, err := grid.New(e.box, e.rows, e.cols)
	if err != nil {
		t.Fatal(err)
	}
	land := newContinent(g, e.water, e.seed).countryside(g, 12, e.water)
	many, one := land.provinces(12, 5), land.provinces(1, 5)
	if shared, single := edgesOf(many); shared < 50 || single < 50 {
		t.Errorf("%d edges shared and %d of the coast; want many of both and none used twice", shared, single)
	}
	if a, b := areaOf(many...), areaOf(one...); math.Abs(a-b) > 0.01*b {
		t.Errorf("the regions' area %.4f differs from the land's %.4f", a, b)
	}
	for k, s := range many {
		for _, polygon := range s {
			for _, r := range polygon {
				if len(r) < 4 || r[0] != r[len(r)-1] {
					t.Errorf("a ring of region %d has %d points from %v to %v", k, len(r), r[0], r[len(r)-1])
				}
			}
		}
	}
}

func TestExpanseNamesAreUnique(t *testing.T) {
	dir := t.TempDir()
	if err := small(t, dir).write(io.Discard); err != nil {
		t.Fatal(err)
	}
	seen := map[string]string{}
	once := func(name, where string) {
		if first, twice := seen[name]; twice || name == "" {
			t.Errorf("the name %q stands in %s and in %s", name, first, where)
		}
		seen[name] = where
	}
	files := contents(t, dir)
	for _, name := range []string{"regions-3.geojson", "regions-12.geojson"} {
		var all collection
		if err := json.Unmarshal([]byte(files[name]), &all); err != nil {
			t.Fatal(err)
		}
		for _, f := range all.Features {
			once(f.Properties.Name, name)
		}
	}
	rows, err := csv.NewReader(strings.NewReader(files["places.csv"])).ReadAll()
	if err != nil || len(rows) < 100 {
		t.Fatalf("%d lines of places, %v", len(rows), err)
	}
	for _, row := range rows[1:] {
		once(row[0], "places.csv")
	}
	if len(seen) != 3+12+len(rows)-1 {
		t.Errorf("%d names of 15 regions and %d places", len(seen), len(rows)-1)
	}
}

// The globe's relief goes on where it began.
func TestGlobeCloses(t *testing.T) {
	g, err := grid.New(grid.Box{West: -180, South: -90, East: 180, North: 90}, 90, 180)
	if err != nil {
		t.Fatal(err)
	}
	s := newContinent(g, 0.6667, 1).over(g)
	for k := range s.octaves {
		for j := range int64(3) {
			if a, b := s.chance(k, 0, j), s.chance(k, int64(s.points<<k), j); a != b {
				t.Errorf("octave %d, row %d: %g in the west, %g in the east", k, j, a, b)
			}
		}
	}
	for row := range g.Rows() {
		for col, base := range s.row(row).base {
			if math.IsNaN(float64(base)) || math.Abs(float64(base)) > 3 {
				t.Fatalf("row %d, column %d: %g", row, col, base)
			}
		}
	}
}

func TestExpanseRefuses(t *testing.T) {
	for want, args := range map[string][]string{
		"-out is missing":        {"-rows", "4"},
		"-water 1":               {"-out", "x", "-water", "1"},
		"is no number of":        {"-out", "x", "-regions", "3,many"},
		"want west,south,east":   {"-out", "x", "-box", "1,2"},
		"not understood":         {"-out", "x", "stray"},
		"flag provided but":      {"-to", "x"},
		"-places -1":             {"-out", "x", "-places", "-1"},
		"is no number of region": {"-out", "x", "-regions", "0"},
	} {
		var stdout, stderr bytes.Buffer
		if code := run(append([]string{"expanse"}, args...), &stdout, &stderr); code != 2 || !strings.Contains(stderr.String(), want) {
			t.Errorf("%q: code %d, %s; want 2 and %q", args, code, &stderr, want)
		}
	}
	var stderr bytes.Buffer
	args := []string{"expanse", "-rows", "3", "-cols", "3", "-regions", "9000", "-out", t.TempDir()}
	if code := run(args, io.Discard, &stderr); code != 1 || !strings.Contains(stderr.String(), "9000 regions do not fit") {
		t.Errorf("code %d, %s", code, &stderr)
	}
}

// The making of normals, packed and thrown away.
func BenchmarkNormals(b *testing.B) {
	g, err := grid.New(grid.Box{West: -125, South: 24, East: -66.5, North: 49.9}, 596, 1385)
	if err != nil {
		b.Fatal(err)
	}
	c := newContinent(g, 0.45, 1)
	b.ReportAllocs()
	for b.Loop() {
		n := newNormalsMaker(c, g)
		var out [12]*geotiff.Writer
		for m := range out {
			if out[m], err = geotiff.NewWriter(io.Discard, g, 1, geotiff.WriteOptions{Store: geotiff.Int16, Scale: 0.1}); err != nil {
				b.Fatal(err)
			}
		}
		if err := n.writeAll(out[:]); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)*float64(g.Cells())/b.Elapsed().Seconds(), "cells/s")
}
