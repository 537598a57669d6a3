package publish_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/publish"
)

func write(t *testing.T, s *publish.Staging, name, text string) {
	t.Helper()
	if err := s.Root().WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func read(t *testing.T, path string) string {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func TestPreviousStaysUntilCommit(t *testing.T) {
	target := filepath.Join(t.TempDir(), "deep", "vale")
	for i, text := range []string{"first", "second"} {
		s, err := publish.Begin(target)
		if err != nil {
			t.Fatal(err)
		}
		write(t, s, publish.Marker, string(marker(text)))
		if i == 1 {
			write(t, s, "new.txt", "x")
			if got := marked(t, target); got != "first" {
				t.Errorf("before Commit the target holds %q", got)
			}
		}
		if err := s.Commit(t.Context()); err != nil {
			t.Fatal(err)
		}
		s.Discard() // as a deferred call would
		if got := marked(t, target); got != text {
			t.Errorf("after Commit the target holds %q, want %q", got, text)
		}
	}
	if left, _ := os.ReadDir(filepath.Dir(target)); len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
}

func TestDiscardLeavesThePrevious(t *testing.T) {
	target := filepath.Join(t.TempDir(), "vale")
	s, _ := publish.Begin(target)
	write(t, s, publish.Marker, string(marker("first")))
	if err := s.Commit(t.Context()); err != nil {
		t.Fatal(err)
	}
	s, _ = publish.Begin(target)
	write(t, s, publish.Marker, "half")
	s.Discard()
	if got := marked(t, target); got != "first" {
		t.Errorf("after Discard the target holds %q", got)
	}
	if left, _ := os.ReadDir(filepath.Dir(target)); len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
}

// A folder of someone else is refused, and so is one whose manifest.json is
// that of another program, as several have one.
func TestForeignFolderIsRefused(t *testing.T) {
	for _, other := range []string{"", "{}", `{"name": "vale", "program": "another"}`, "not JSON", `["weekband"]`} {
		target := t.TempDir()
		letter := filepath.Join(target, "letter.txt")
		if err := os.WriteFile(letter, []byte("dear"), 0o644); err != nil {
			t.Fatal(err)
		}
		if other != "" {
			if err := os.WriteFile(filepath.Join(target, publish.Marker), []byte(other), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if err := begun(target); err == nil || !strings.Contains(err.Error(), "it holds files that weekband did not write") {
			t.Errorf("%q: %v", other, err)
		}
		if got := read(t, letter); got != "dear" {
			t.Errorf("the letter reads %q", got)
		}
	}
}

// A folder of one kind is never replaced by one of another.
func TestKindsAreKeptApart(t *testing.T) {
	const other, kept = "comparison.json", `{"program":"weekband"}`
	for _, c := range []struct{ there, marker string }{{publish.Marker, other}, {other, publish.Marker}} {
		target := filepath.Join(t.TempDir(), "vale")
		for i := range 2 { // the second replaces the first
			s, err := publish.BeginMarked(target, c.there)
			if err != nil {
				t.Fatalf("%d: %v", i, err)
			}
			write(t, s, c.there, kept)
			if err := s.Commit(t.Context()); err != nil {
				t.Fatal(err)
			}
		}
		if _, err := publish.BeginMarked(target, c.marker); err == nil || !strings.Contains(err.Error(), "no "+c.marker) {
			t.Errorf("a folder with %s may be replaced by one with %s: %v", c.there, c.marker, err)
		}
		if got := read(t, filepath.Join(target, c.there)); got != kept {
			t.Errorf("%s holds %q", c.there, got)
		}
	}
}
