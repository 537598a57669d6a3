package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/oracle"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/regions/zonal"
)

// contiguousUS runs the core over the real normals of the contiguous United
// States with its states as regions, and returns the rows by state.
func contiguousUS(t *testing.T, normals string) map[string]report.Row {
	t.Helper()
	dir := t.TempDir()
	text := fmt.Sprintf(`
title: Contiguous United States
edition: 2027
normals: {files: [%q], period: 1981-2010}
windows: [{id: spring, title: Spring, threshold: 55 °F, starts: 50 °F}]
regions: [{file: %q, object: states, name: name}]
`, normals, oracle.Data(t, "us/states-10m.json"))
	r, err := recipe.Decode([]byte(text), filepath.Join(dir, "us.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	in, err := inputs.Open(t.Context(), r, dir, inputs.MostCells)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	if err := in.KeepOnGrid(r.Regions); err != nil {
		t.Fatal(err)
	}
	fields, err := weeks.Compute(t.Context(), in.Normals, r.Windows, inputs.ComputeOptions(r, in))
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]report.Row{}
	for _, row := range report.Build(fields, in.Areas, zonal.CoverAll(in.Areas, in.Normals.Grid())) {
		rows[row.Name] = row
	}
	return rows
}

func date(month, day int) season.Day { return season.Date(time.Month(month), day) }

// Plausible dates of the normal 55 °F day at 10 cm under turf, from what
// extension services of the states print (north Georgia mid-February to
// March, Raleigh late March, central Iowa the last third of April, north
// Florida February, Michigan mid-May; wide on purpose, partly inference).
func TestTypicalDaysAreThoseOfExtensionServices(t *testing.T) {
	unraced(t)
	rows := contiguousUS(t, oracle.Data(t, "us/normals-10min.tif"))
	for _, c := range []struct {
		state    string
		from, to season.Day
	}{
		{"Louisiana", date(1, 25), date(3, 5)},
		{"Alabama", date(2, 1), date(3, 15)},
		{"Georgia", date(2, 10), date(3, 15)},
		{"South Carolina", date(2, 15), date(3, 25)},
		{"North Carolina", date(3, 10), date(4, 10)},
		{"Tennessee", date(3, 15), date(4, 10)},
		{"Oklahoma", date(3, 15), date(4, 10)},
		{"Kentucky", date(4, 1), date(4, 25)},
		{"Maryland", date(4, 1), date(4, 25)},
		{"Kansas", date(4, 1), date(4, 28)},
		{"Illinois", date(4, 12), date(5, 5)},
		{"Iowa", date(4, 18), date(5, 11)}, // its neighbours' thermometers: Shabbona May 11, Chillicothe Apr 28, Lincoln Apr 26 and May 4
		{"Nebraska", date(4, 12), date(5, 8)},
		{"Ohio", date(4, 12), date(5, 5)},
		{"Pennsylvania", date(4, 12), date(5, 14)}, // Wooster May 7, Ithaca May 21, Elkins May 16
		{"Michigan", date(4, 25), date(5, 20)},
		{"Wisconsin", date(4, 25), date(5, 20)},
		{"North Dakota", date(5, 5), date(5, 25)},
	} {
		if got := rows[c.state].Median; got < c.from || got > c.to {
			t.Errorf("%s: half of it has crossed by %v; extension services say %v to %v", c.state, got, c.from, c.to)
		}
	}
	if f := rows["Florida"]; f.Shares.AlwaysShare < 0.5 {
		t.Errorf("Florida: %.0f %% always above 55 °F, want most of it: soil there never falls below", 100*f.Shares.AlwaysShare)
	}
}

// When people treat, region by region (common practice, no source): on time
// must meet these stretches, two weeks to either side being acceptable. Their
// middle is on time, or at most a week ahead of it; a third of them is shared.
// README.md has both in a table.
func TestOnTimeMeetsCommonPractice(t *testing.T) {
	unraced(t)
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	rows := contiguousUS(t, oracle.Data(t, "us/normals-10min.tif"))
	for _, c := range []struct {
		state    string
		from, to season.Day
	}{
		{"Louisiana", date(2, 1), date(2, 28)}, // the deep south and the Gulf coast: February
		{"Mississippi", date(2, 1), date(2, 28)},
		{"Alabama", date(2, 1), date(2, 28)},
		{"South Carolina", date(2, 15), date(3, 20)},
		{"North Carolina", date(3, 1), date(3, 31)}, // between: March
		{"Virginia", date(3, 1), date(3, 31)},
		{"Tennessee", date(3, 1), date(3, 31)},
		{"Arkansas", date(3, 1), date(3, 31)},
		{"Oklahoma", date(3, 1), date(3, 31)},
		{"Missouri", date(3, 20), date(4, 10)}, // lower Midwest, central plains: end of March to early April
		{"Illinois", date(3, 25), date(4, 10)},
		{"Indiana", date(3, 25), date(4, 10)},
		{"Kansas", date(3, 25), date(4, 10)},
		{"Ohio", date(3, 25), date(4, 15)},
	} {
		cal := rows[c.state].Calendar
		middle := (c.from + c.to) / 2
		got := cal.At(middle)
		if line := fmt.Sprintf("| %s | %v to %v | %v to %v |", c.state, c.from, c.to, cal.OntimeFrom, cal.OntimeTo); !strings.Contains(string(readme), line) {
			t.Errorf("README.md lacks the line %s", line)
		}
		if late := cal.OntimeFrom - middle; got != status.OnTime && (got != status.Ahead || late > 7) {
			t.Errorf("%s: the middle of common practice, %v, is %v; on time is %v to %v", c.state, middle, got, cal.OntimeFrom, cal.OntimeTo)
		}
		if shared := min(cal.OntimeTo, c.to) - max(cal.OntimeFrom, c.from); shared < (c.to-c.from)/3 {
			t.Errorf("%s: on time %v to %v shares %.0f days with %v to %v", c.state, cal.OntimeFrom, cal.OntimeTo, float64(shared), c.from, c.to)
		}
	}
}

// The same normals as GeoTIFF, as twelve ASCII grids and as NetCDF classic
// (both by GDAL) give the same answers.
func TestThreeFormatsOneEdition(t *testing.T) {
	unraced(t)
	tif := oracle.Data(t, "us/normals-10min.tif")
	oracle.Need(t, "gdal_translate")
	dir := t.TempDir()
	for m := 1; m <= 12; m++ {
		oracle.Run(t, nil, "gdal_translate", "-q", "-of", "AAIGrid", "-co", "DECIMAL_PRECISION=9", "-b", fmt.Sprint(m), tif,
			filepath.Join(dir, fmt.Sprintf("tavg-%02d.asc", m)))
	}
	nc := filepath.Join(dir, "normals.nc")
	oracle.Run(t, nil, "gdal_translate", "-q", "-of", "netCDF", "-co", "FORMAT=NC", tif, nc)
	want := contiguousUS(t, tif)
	for _, files := range []string{filepath.Join(dir, "tavg-*.asc"), nc} {
		got := contiguousUS(t, files)
		if len(got) != len(want) {
			t.Fatalf("%s: %d regions, want %d", files, len(got), len(want))
		}
		for name, row := range want {
			other := got[name]
			if other.Median != row.Median || other.Calendar != row.Calendar || other.Shares != row.Shares {
				t.Errorf("%s: %s differs: %+v, want %+v", files, name, other, row)
			}
		}
	}
}
