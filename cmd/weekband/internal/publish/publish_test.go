package publish_test

import (
	"os"
	"path/filepath"
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
		write(t, s, publish.Marker, text)
		if i == 1 {
			write(t, s, "new.txt", "x")
			if got := read(t, filepath.Join(target, publish.Marker)); got != "first" {
				t.Errorf("before Commit the target holds %q", got)
			}
		}
		if err := s.Commit(t.Context()); err != nil {
			t.Fatal(err)
		}
		s.Discard() // as a deferred call would
		if got := read(t, filepath.Join(target, publish.Marker)); got != text {
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
	write(t, s, publish.Marker, "first")
	if err := s.Commit(t.Context()); err != nil {
		t.Fatal(err)
	}
	s, _ = publish.Begin(target)
	write(t, s, publish.Marker, "half")
	s.Discard()
	if got := read(t, filepath.Join(target, publish.Marker)); got != "first" {
		t.Errorf("after Discard the target holds %q", got)
	}
	if left, _ := os.ReadDir(filepath.Dir(target)); len(left) != 1 {
		t.Errorf("left behind: %v", left)
	}
}

func TestForeignFolderIsRefused(t *testing.T) {
	target := t.TempDir()
	if err := os.WriteFile(filepath.Join(target, "letter.txt"), []byte("dear"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := publish.Begin(target); err == nil {
		t.Fatal("a folder with someone's letter in it may be replaced")
	}
	if got := read(t, filepath.Join(target, "letter.txt")); got != "dear" {
		t.Errorf("the letter reads %q", got)
	}
}
