// Package scratch makes temporary folders that do not pile up.
//
// It takes a word and gives a folder in the system's place for temporary
// files, held for this process. What a killed process has left is removed when
// the next folder of that word is made. It never knows what is kept there.
package scratch

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"weekband/cmd/weekband/internal/flock"
)

// Dir is a temporary folder.
type Dir struct {
	path string
	held *os.File // the folder itself; nil where no locks are kept
}

// New makes a folder whose name begins with weekband and a word, and removes
// those of the same word and user that no process holds.
func New(word string) (*Dir, error) {
	prefix := "weekband-" + word + "-"
	sweep(os.TempDir(), prefix)
	for {
		path, err := os.MkdirTemp("", prefix)
		if err != nil {
			return nil, fmt.Errorf("temporary folder: %w; the variable TMPDIR can name another place for it", err)
		}
		held, err := hold(path)
		switch {
		case err == nil:
			return &Dir{path: path, held: held}, nil
		case errors.Is(err, flock.ErrNone):
			return &Dir{path: path}, nil
		case errors.Is(err, flock.ErrHeld), errors.Is(err, os.ErrNotExist): // another process swept it before it was held
		default:
			return nil, errors.Join(fmt.Errorf("temporary folder: %w", err), os.RemoveAll(path))
		}
	}
}

// Path is the folder's path.
func (d *Dir) Path() string { return d.path }

// Close removes the folder and all in it.
func (d *Dir) Close() error {
	err := os.RemoveAll(d.path)
	if d.held != nil {
		d.held.Close()
	}
	return err
}

// hold opens a folder and holds it. It returns an error that is
// os.ErrNotExist when the folder was removed meanwhile.
func hold(path string) (*os.File, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	if err := flock.Try(f); err != nil {
		f.Close()
		return nil, err
	}
	opened, err := f.Stat()
	if err == nil {
		var now os.FileInfo
		if now, err = os.Lstat(path); err == nil && !os.SameFile(opened, now) {
			err = os.ErrNotExist
		}
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

// sweep removes the folders with a prefix that belong to this user and that
// nobody holds. What cannot be removed stays: it is in nobody's way.
func sweep(place, prefix string) {
	entries, err := os.ReadDir(place)
	if err != nil {
		return
	}
	for _, e := range entries {
		if !e.IsDir() || !strings.HasPrefix(e.Name(), prefix) {
			continue
		}
		path := filepath.Join(place, e.Name())
		if info, err := e.Info(); err != nil || !mine(info) {
			continue
		}
		if held, err := hold(path); err == nil {
			os.RemoveAll(path)
			held.Close()
		}
	}
}
