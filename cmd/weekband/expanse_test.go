package main

import (
	"os/exec"
	"path/filepath"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
)

// The recipes that come with invented ground are sound.
func TestExpanseRecipes(t *testing.T) {
	unraced(t)
	dir := t.TempDir()
	cmd := exec.Command("go", "run", "../territory", "expanse", "-rows", "20", "-cols", "30", "-regions", "2,5", "-out", dir)
	if text, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	for name, files := range map[string]int{"recipe.yaml": 2, "recipe-2.yaml": 1, "recipe-5.yaml": 1} {
		r, err := recipe.Load(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Regions) != files || len(r.Windows) != 2 {
			t.Errorf("%s: %d files of regions and %d windows, want %d and 2", name, len(r.Regions), len(r.Windows), files)
		}
	}
}
