package flock_test

import (
	"errors"
	"os"
	"testing"

	"weekband/cmd/weekband/internal/flock"
)

// A file and a folder are held until they are closed.
func TestTry(t *testing.T) {
	dir := t.TempDir()
	file := dir + "/lock"
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{dir, file} {
		open := func() *os.File {
			f, err := os.Open(path)
			if err != nil {
				t.Fatal(err)
			}
			return f
		}
		first, second := open(), open()
		if err := flock.Try(first); errors.Is(err, flock.ErrNone) {
			t.Skip(err)
		} else if err != nil {
			t.Fatal(err)
		}
		if err := flock.Try(second); !errors.Is(err, flock.ErrHeld) {
			t.Errorf("held twice: %v", err)
		}
		first.Close()
		if err := flock.Try(second); err != nil {
			t.Errorf("after the first is closed: %v", err)
		}
		second.Close()
		if err := flock.Try(second); err == nil {
			t.Error("a closed file is held")
		}
	}
}
