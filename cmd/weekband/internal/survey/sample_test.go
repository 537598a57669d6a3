package survey_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/skerry"
	"weekband/cmd/weekband/internal/survey"
)

// taken surveys an order into a folder and returns the findings and what was written.
func taken(t *testing.T, o survey.Order) (*survey.Findings, map[string]string) {
	t.Helper()
	in, err := survey.Open(t.Context(), o, func(...string) error { return nil }, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	found, err := survey.Take(t.Context(), o, in, root, nil)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string]string{}
	err = fs.WalkDir(root.FS(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := root.ReadFile(name)
		files[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return found, files
}

// A grid too large to hold gives the same, whether its rows are worked out now or
// were apart: rows of regions, figures, crossing grids and lookups with the typical
// years, which parts hold behind their rows.
func TestSampleOfParts(t *testing.T) {
	dir := t.TempDir()
	path, err := skerry.Write(dir)
	if err != nil {
		t.Fatal(err)
	}
	r, err := recipe.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	o := survey.Order{Recipe: r, Path: path, Out: filepath.Join(dir, "out"), Hold: 5}
	whole, want := taken(t, o)
	for _, flags := range [][2]string{{"0:1", ""}, {"", "1/2"}} {
		part := o
		if part.Portion, err = survey.PortionOf(flags[0], flags[1]); err != nil {
			t.Fatal(err)
		}
		if err := survey.TakePart(t.Context(), part, nil); err != nil {
			t.Fatal(err)
		}
	}
	o.Parts = []string{o.Out + "-rows-1-2.part", o.Out + "-rows-0-1.part"}
	merged, got := taken(t, o)
	if !whole.Sampled || !merged.Sampled || !reflect.DeepEqual(merged.Figures, whole.Figures) || !reflect.DeepEqual(merged.Rows, whole.Rows) {
		t.Errorf("from parts\n%+v, want\n%+v", merged, whole)
	}
	if len(want) < 4 || len(got) != len(want) {
		t.Fatalf("%d files, want %d", len(got), len(want))
	}
	for name, text := range want {
		if got[name] != text {
			t.Errorf("%s differs", name)
		}
	}
	// Of one part alone the rest is missing.
	o.Parts = o.Parts[:1]
	in, err := survey.Open(t.Context(), o, func(...string) error { return nil }, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	if _, err := survey.Take(t.Context(), o, in, nil, nil); err == nil || !strings.Contains(err.Error(), "rows 0:1 are in no part; work them out: weekband build "+path+" --rows 0:1") {
		t.Errorf("one part of two: %v", err)
	}
}

// What would be overwritten is not opened, and no input stays open.
func TestSpare(t *testing.T) {
	path, err := skerry.Write(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	r, err := recipe.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	var asked []string
	spare := func(files ...string) error {
		asked = files
		return os.ErrPermission
	}
	if _, err := survey.Open(t.Context(), survey.Order{Recipe: r, Path: path, Parts: []string{"a.part"}}, spare, nil); err != os.ErrPermission {
		t.Errorf("%v", err)
	}
	if n := len(asked); n != 16 || asked[0] != path || asked[n-1] != "a.part" { // recipe, regions, places, 12 months, a part
		t.Errorf("asked for %q", asked)
	}
}
