package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/survey"
	"weekband/grid/source"
	"weekband/grid/weeks"
)

// opened reads a recipe that lies in dir and works out its fields.
func opened(t *testing.T, dir, text string) (*inputs.Set, []*weeks.Field) {
	t.Helper()
	r, err := recipe.Decode([]byte(text), filepath.Join(dir, "recipe.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	in, err := inputs.Open(t.Context(), r, dir, inputs.MostCells)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(in.Close)
	fields, err := survey.Compute(t.Context(), survey.Order{Recipe: r}, in)
	if err != nil {
		t.Fatal(err)
	}
	return in, fields
}

// stationsOf writes tables of stations that stand in every so many cells of
// the demo's territory and measure its normals.
func stationsOf(t *testing.T, dir string, step int) {
	t.Helper()
	normals, err := source.OpenNormals([]string{filepath.Join(dir, "normals.tif")}, source.NormalsOptions{})
	if err != nil {
		t.Fatal(err)
	}
	defer normals.Close()
	heights, err := source.Open(filepath.Join(dir, "elevation.tif"), source.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer heights.Close()
	terrain, err := inputs.ReadRaster(heights, "elevation.tif", func(float32) error { return nil })
	if err != nil {
		t.Fatal(err)
	}
	g := normals.Grid()
	var rows source.Rows
	if err := normals.Read(0, g.Rows(), &rows); err != nil {
		t.Fatal(err)
	}
	var sites, values strings.Builder
	sites.WriteString("id,name,lat,lon,elev_m\n")
	values.WriteString("id,month,tavg_c\n")
	for row := 1; row < g.Rows(); row += step {
		for col := row % 3; col < g.Cols(); col += step {
			i := row*g.Cols() + col
			cell := cellOf(i, g.Cols())
			z, land := terrain.At(cell)
			if !land || !rows.Has[i] {
				continue
			}
			at := g.Center(cell)
			fmt.Fprintf(&sites, "S%d,Station %d,%.4f,%.4f,%.0f\n", i, i, at.Lat, at.Lon, z)
			for m := range 12 {
				fmt.Fprintf(&values, "S%d,%d,%.2f\n", i, m+1, rows.Vals[m][i])
			}
		}
	}
	for name, text := range map[string]string{"sites.csv": sites.String(), "values.csv": values.String()} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// apart returns the median and the 90 % quantile of how many days two fields
// on one grid lie apart.
func apart(t *testing.T, a, b *weeks.Field) (median, most float64) {
	t.Helper()
	var days []float64
	for cell, day := range a.Day.All() {
		if other, ok := b.Day.At(cell); ok {
			days = append(days, math.Abs(float64(day-other)))
		}
	}
	if len(days) < 1000 {
		t.Fatalf("%d cells are dated in both", len(days))
	}
	slices.Sort(days)
	return days[len(days)/2], days[len(days)*9/10]
}

// Stations that stand on one cell in some thirty, with the terrain, give back
// the territory they were taken from.
func TestStationsGiveTheTerritoryBack(t *testing.T) {
	unraced(t)
	dir, text := unpacked(t)
	_, want := opened(t, dir, text)
	stationsOf(t, dir, 6)
	in, got := opened(t, dir, strings.Replace(text, "files: [normals.tif]", "sites: sites.csv\n  values: values.csv", 1))
	if in.Stations == nil || in.Stations.Used < 150 {
		t.Fatalf("stations %+v", in.Stations)
	}
	median, most := apart(t, want[0], got[0])
	t.Logf("%d stations: half of the cells within %.1f days, 90 %% within %.1f", in.Stations.Used, median, most)
	if median > 2 || most > 6 {
		t.Errorf("half of the cells lie within %.1f days, 90 %% within %.1f", median, most)
	}
	errors := 0
	for _, v := range got[0].Error.All() {
		if v > 0 {
			errors++
		}
	}
	if errors < 5000 {
		t.Errorf("%d cells have a standard error", errors)
	}
}

// Without a terrain a recipe must say which grid.
func TestStationsNeedAGrid(t *testing.T) {
	dir, text := unpacked(t)
	stationsOf(t, dir, 9)
	text = strings.Replace(text, "files: [normals.tif]", "sites: sites.csv\n  values: values.csv", 1)
	text = strings.Replace(text, "terrain: elevation.tif", "# none:", 1)
	r, err := recipe.Decode([]byte(text), "recipe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := inputs.Open(t.Context(), r, dir, inputs.MostCells); err == nil || !strings.Contains(err.Error(), "give a terrain") {
		t.Errorf("no grid: %v", err)
	}
	in, fields := opened(t, dir, text+"grid: {cell: 20 km, box: [-53, 33, -43, 39.5]}\n")
	if g := fields[0].Grid(); g.Rows() < 30 || g.Rows() > 40 || in.Stations.Used < 50 {
		t.Errorf("grid %v from %d stations", g, in.Stations.Used)
	}
}

// Half of the cells on each side, with the terrain, change the day little.
func TestFinerGridKeepsTheDays(t *testing.T) {
	dir, text := unpacked(t)
	_, want := opened(t, dir, text)
	_, coarse := opened(t, dir, text+"grid: {cell: 0.16 deg}\n")
	if coarse[0].Grid().Rows() != 60 {
		t.Fatalf("grid %v", coarse[0].Grid())
	}
	sum, n := 0.0, 0.0
	for cell, day := range coarse[0].Day.All() {
		at := coarse[0].Grid().Center(cell)
		at.Lon -= 0.01 // not on the corner of four cells
		at.Lat -= 0.01
		fine, _ := want[0].Grid().Locate(at)
		if other, ok := want[0].Day.At(fine); ok {
			sum += math.Abs(float64(day - other))
			n++
		}
	}
	if n < 1000 || sum/n > 3 {
		t.Errorf("%v cells lie %.2f days apart on average", n, sum/n)
	}
}
