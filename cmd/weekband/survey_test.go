package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/output"
	"weekband/grid"
	"weekband/render/lookup"
)

// An edition whose cells go by as a stream is that of one which holds them: the
// same files, crossing grids and errors to the byte, and the same answers
// everywhere. Its cells are few enough to be drawn all.
func TestSampledEditionIsThatOfAllCells(t *testing.T) {
	unraced(t)
	recipe := islet(t)
	rewrite(t, recipe, "calibration: none", "calibration: us")
	for _, path := range []string{recipe, filepath.Join(filepath.Dir(recipe), "halves.geojson"), filepath.Join(filepath.Dir(recipe), "places.csv")} {
		moveWest(t, path)
	}
	months, err := filepath.Glob(filepath.Join(filepath.Dir(recipe), "tavg-*.asc"))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range months {
		rewrite(t, m, "xllcorner -47.6", "xllcorner -97.6")
	}
	whole := orderOf(t, recipe)
	if err := pipeline(t.Context(), whole, nil); err != nil {
		t.Fatal(err)
	}
	sampled := orderOf(t, recipe)
	sampled.Hold = 5
	if err := pipeline(t.Context(), sampled, nil); err != nil {
		t.Fatal(err)
	}
	want, got := files(t, whole.Out), files(t, sampled.Out)
	for name, text := range want {
		switch other, ok := got[name]; {
		case name == "tables/cells.csv.gz":
			if ok {
				t.Error("a sample has a table of cells")
			}
		case !ok:
			t.Errorf("%s is missing", name)
		case strings.HasSuffix(name, ".tif") || strings.HasPrefix(name, "data/lookup") || strings.HasPrefix(name, "data/bands"):
			if !bytes.Equal([]byte(text), []byte(other)) {
				t.Errorf("%s differs", name)
			}
		}
	}
	if _, ok := want[output.ErrorFile("spring")]; !ok {
		t.Error("no errors were known")
	}
	e, err := lookup.Open(os.DirFS(sampled.Out))
	if err != nil {
		t.Fatal(err)
	}
	answers, err := e.At(grid.LonLat{Lon: -97.3, Lat: 38.11})
	if err != nil || !answers[0].Reason.HasDay() {
		t.Errorf("%+v, %v", answers, err)
	}
}

// moveWest moves a file of the islet into the reach of calibration stations.
func moveWest(t *testing.T, path string) {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, bytes.ReplaceAll(bytes.ReplaceAll(text, []byte("-47"), []byte("-97")), []byte("-46"), []byte("-96")), 0o644); err != nil {
		t.Fatal(err)
	}
}
