package inputs_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/skerry"
	"weekband/regions/zonal"
)

// island writes Skerry with other files and returns its recipe.
func island(t *testing.T, files map[string]string) (recipe string) {
	t.Helper()
	dir := t.TempDir()
	path, err := skerry.Write(dir)
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return path
}

// opened opens what a recipe names.
func opened(t *testing.T, path string) (*recipe.Recipe, *inputs.Set, error) {
	t.Helper()
	r, err := recipe.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	in, err := inputs.Open(t.Context(), r, filepath.Dir(path), inputs.MostCells)
	if err == nil {
		t.Cleanup(in.Close)
	}
	return r, in, err
}

// square is a region of 4 by 2 of the island's cells when its corner is on theirs.
func square(code string, west, south float64) string {
	return fmt.Sprintf(`{"type":"Feature","properties":{"code":%q,"name":"Land %s"},"geometry":{"type":"Polygon","coordinates":[[[%g,%g],[%g,%g],[%g,%g],[%g,%g],[%[3]g,%[4]g]]]}}`,
		code, code, west, south, west+0.4, south, west+0.4, south+0.2, west, south+0.2)
}

// turnedOver is square with latitude first.
func turnedOver(code string, west, south float64) string {
	return fmt.Sprintf(`{"type":"Feature","properties":{"code":%q,"name":"Land %s"},"geometry":{"type":"Polygon","coordinates":[[[%g,%g],[%g,%g],[%g,%g],[%g,%g],[%[3]g,%[4]g]]]}}`,
		code, code, south, west, south, west+0.4, south+0.2, west+0.4, south+0.2, west)
}

// withRegions opens the island with other regions.
func withRegions(t *testing.T, features ...string) (*recipe.Recipe, *inputs.Set) {
	t.Helper()
	r, in, err := opened(t, island(t, map[string]string{"halves.geojson": `{"type":"FeatureCollection","features":[` + strings.Join(features, ",\n") + "]}"}))
	if err != nil {
		t.Fatal(err)
	}
	return r, in
}

// Regions none of which lies on the normals are refused, with both boxes and,
// where it can be told, why.
func TestRegionsOffTheGridAreRefused(t *testing.T) {
	const boxes = "the normals west -47.6, south 38, east -46.4, north 38.2; name polygons of the same ground"
	for name, c := range map[string]struct{ feature, want string }{
		"elsewhere": {square("X", 10, 50), "regions: halves.geojson: all 1 lie outside the normals: the regions span west 10, south 50, east 10.4, north 50.2, " + boxes},
		"swapped":   {turnedOver("X", -47, 38), boxes + "; with latitude and longitude swapped they would lie there: write longitude first"},
	} {
		r, in := withRegions(t, c.feature)
		if err := in.KeepOnGrid(r.Regions); err == nil || !strings.HasSuffix(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

// Some off the grid are left out with a note, some over others are kept with
// one; of many the first are named and all counted.
func TestRegionsWithNotes(t *testing.T) {
	var crowd []string
	for i := range 120 {
		crowd = append(crowd, square(fmt.Sprint("C", i), -47.6+float64(i)/1000, 38))
	}
	for name, c := range map[string]struct {
		features []string
		notes    []string
		ids      int
	}{
		"beside": {[]string{square("A", -47.6, 38), square("B", -47.2, 38)}, nil, 2},
		"far off": {[]string{square("A", -47.6, 38), square("B", 10, 50), turnedOver("C", -47, 38)},
			[]string{"outside the normals and left out: Land B, Land C; 1 of them would lie there with latitude and longitude swapped"}, 1},
		"over":   {[]string{square("A", -47.6, 38), square("B", -47.4, 38)}, []string{"Land B (id B), at least 50 % of it over Land A (id A)"}, 2},
		"within": {[]string{square("A", -47.6, 38), square("B", -47.6, 38)}, []string{"Land B (id B), all of it over Land A (id A)"}, 2},
		"sliver": {[]string{square("A", -47.6, 38), square("B", -47.203, 38)}, nil, 2}, // 0.75 % of it
		"crowd":  {crowd, []string{"119 in all, the first are Land C1 (id C1), all of it over Land C0"}, 120},
	} {
		r, in := withRegions(t, c.features...)
		before := len(in.Notes)
		if err := in.KeepOnGrid(r.Regions); err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		in.NoteOverlaps(zonal.CoverAll(in.Areas, in.Normals.Grid()))
		if notes := in.Notes[before:]; len(notes) != len(c.notes) || len(in.Areas.Regions) != c.ids || !slices.EqualFunc(notes, c.notes, strings.Contains) {
			t.Errorf("%s: %d regions, notes %q, want %q", name, len(in.Areas.Regions), notes, c.notes)
		}
	}
}

// Places off the grid are counted, and the first is named.
func TestPlacesOffTheGrid(t *testing.T) {
	r, in, err := opened(t, island(t, map[string]string{"places.csv": "name,lat,lon\nHaven,38.11,-47.3\nSwapped,-47.3,38.11\nFar,10,10\n"}))
	if err != nil {
		t.Fatal(err)
	}
	if err := in.KeepOnGrid(r.Regions); err != nil {
		t.Fatal(err)
	}
	if want := "2 of 3 places lie outside the normals, the first is Swapped; are lat and lon right, north and east positive?"; !slices.Contains(in.Notes, want) {
		t.Errorf("notes %q, want %q", in.Notes, want)
	}
}
