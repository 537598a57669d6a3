package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/skerry"
)

// islet writes the recipe of Skerry and what it names: an island of a few cells
// with two regions and a short season, which builds in a moment.
func islet(t *testing.T) (recipe string) {
	t.Helper()
	recipe, err := skerry.Write(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	return recipe
}

// islets is islet with the recipe of another edition, which differs in the
// title.
func islets(t *testing.T) (first, second string) {
	t.Helper()
	first = islet(t)
	text, err := os.ReadFile(first)
	if err != nil {
		t.Fatal(err)
	}
	second = filepath.Join(filepath.Dir(first), "again.yaml")
	if err := os.WriteFile(second, []byte(strings.Replace(string(text), "Skerry", "Skerry again", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	return first, second
}
