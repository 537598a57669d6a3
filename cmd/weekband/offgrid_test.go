package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/regions/zonal"
)

// square is a region of Merrow's recipe, of 12 by 6 of its cells when its
// corner is on theirs.
func square(code string, west, south float64) string {
	return fmt.Sprintf(`{"type":"Feature","properties":{"code":%q,"name":"Land %s"},"geometry":{"type":"Polygon","coordinates":[[[%g,%g],[%g,%g],[%g,%g],[%g,%g],[%[3]g,%[4]g]]]}}`,
		code, code, west, south, west+0.96, south, west+0.96, south+0.48, west, south+0.48)
}

// turnedOver is square with latitude first.
func turnedOver(code string, west, south float64) string {
	return fmt.Sprintf(`{"type":"Feature","properties":{"code":%q,"name":"Land %s"},"geometry":{"type":"Polygon","coordinates":[[[%g,%g],[%g,%g],[%g,%g],[%g,%g],[%[3]g,%[4]g]]]}}`,
		code, code, south, west, south, west+0.96, south+0.48, west+0.96, south+0.48, west)
}

// withRegions unpacks Merrow with other regions and returns its recipe.
func withRegions(t *testing.T, features ...string) string {
	t.Helper()
	dir, _ := unpacked(t)
	text := `{"type":"FeatureCollection","features":[` + strings.Join(features, ",\n") + "]}"
	if err := os.WriteFile(filepath.Join(dir, "regions.geojson"), []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return filepath.Join(dir, "recipe.yaml")
}

// Regions none of which lies on the normals are refused, with both boxes and,
// where it can be told, why.
func TestRegionsOffTheGridAreRefused(t *testing.T) {
	boxes := "the normals west -54.4, south 31.2, east -41.6, north 40.8; name polygons of the same ground"
	for name, c := range map[string]struct{ feature, want string }{
		"elsewhere": {square("X", 10, 50), "regions: regions.geojson: all 1 lie outside the normals: the regions span west 10, south 50, east 10.96, north 50.48, " + boxes},
		"swapped":   {turnedOver("X", -50, 38), boxes + "; with latitude and longitude swapped they would lie there: write longitude first"},
	} {
		code, _, log := weekband(t, "build", withRegions(t, c.feature), "--out", filepath.Join(t.TempDir(), "x"))
		if code != exitData || !strings.Contains(log, c.want) {
			t.Errorf("%s: exit code %d\n%s\nwant %q", name, code, log, c.want)
		}
	}
}

// notesOn returns what a build says of regions before it draws, and their ids.
func notesOn(t *testing.T, path string) (notes, ids []string) {
	t.Helper()
	r, err := recipe.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	in, err := inputs.Open(t.Context(), r, filepath.Dir(path), inputs.MostCells)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	before := len(in.Notes)
	if err := in.KeepOnGrid(r.Regions); err != nil {
		t.Fatal(err)
	}
	in.NoteOverlaps(zonal.CoverAll(in.Areas, in.Normals.Grid()))
	for _, region := range in.Areas.Regions {
		ids = append(ids, region.ID)
	}
	return in.Notes[before:], ids
}

// Some off the grid are left out with a note, some over others are kept with
// one; of many the first are named and all counted.
func TestRegionsWithNotes(t *testing.T) {
	var crowd []string
	for i := range 120 {
		crowd = append(crowd, square(fmt.Sprint("C", i), -50+float64(i)/1000, 38))
	}
	for name, c := range map[string]struct {
		features []string
		notes    []string
		ids      int
	}{
		"beside": {[]string{square("A", -50, 38), square("B", -49.04, 38)}, nil, 2},
		"far off": {[]string{square("A", -50, 38), square("B", 10, 50), turnedOver("C", -50, 38)},
			[]string{"outside the normals and left out: Land B, Land C; 1 of them would lie there with latitude and longitude swapped"}, 1},
		"over":   {[]string{square("A", -50, 38), square("B", -49.52, 38)}, []string{"Land B (id B), at least 50 % of it over Land A (id A)"}, 2},
		"within": {[]string{square("A", -50, 38), square("B", -50, 38)}, []string{"Land B (id B), all of it over Land A (id A)"}, 2},
		"crowd":  {crowd, []string{"119 in all, the first are Land C1 (id C1), all of it over Land C0"}, 120},
	} {
		notes, ids := notesOn(t, withRegions(t, c.features...))
		if len(notes) != len(c.notes) || len(ids) != c.ids || !slices.EqualFunc(notes, c.notes, strings.Contains) {
			t.Errorf("%s: %d regions, notes %q, want %q", name, len(ids), notes, c.notes)
		}
	}
}
