// Package publish puts a finished folder in the place of the previous one.
//
// It takes the name of a folder and gives a fresh one to write into; at the
// end the fresh one takes the name. Until then the previous one stays as it
// is. It never knows what is written.
package publish

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Marker is the file every published edition holds. A folder that has other
// things in it but no Marker is no edition, and none replaces it.
const Marker = "manifest.json"

// Staging is a fresh folder beside the target.
type Staging struct {
	target, fresh string
	root          *os.Root
}

// Begin makes a fresh folder beside target, whose parents are made if need
// be. It returns an error when target exists and neither is empty nor holds
// an earlier publication.
func Begin(target string) (*Staging, error) { return BeginMarked(target, Marker) }

// BeginMarked is Begin for folders of another kind, each of which holds the
// file marker: it replaces only folders of that kind.
func BeginMarked(target, marker string) (*Staging, error) {
	target = filepath.Clean(target)
	if err := replaceable(target, marker); err != nil {
		return nil, err
	}
	parent, name := filepath.Split(target)
	if parent == "" {
		parent = "."
	}
	if err := os.MkdirAll(parent, 0o755); err != nil {
		return nil, fmt.Errorf("output folder: %w", err)
	}
	fresh, err := os.MkdirTemp(parent, "."+name+".fresh-")
	if err != nil {
		return nil, fmt.Errorf("output folder: %w", err)
	}
	if err := os.Chmod(fresh, 0o755); err != nil {
		return nil, fmt.Errorf("output folder: %w", err)
	}
	root, err := os.OpenRoot(fresh)
	if err != nil {
		return nil, fmt.Errorf("output folder: %w", err)
	}
	return &Staging{target: target, fresh: fresh, root: root}, nil
}

// replaceable reports, as an error, a target that must not be replaced.
func replaceable(target, marker string) error {
	entries, err := os.ReadDir(target)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("output folder: %w", err)
	}
	for _, e := range entries {
		if e.Name() == marker {
			return nil
		}
	}
	if len(entries) > 0 {
		return fmt.Errorf("output folder %s holds files that weekband did not write, or wrote as something else (there is no %s): name another folder with --out, or empty it", target, marker)
	}
	return nil
}

// Root is the fresh folder.
func (s *Staging) Root() *os.Root { return s.root }

// Commit gives the fresh folder the target's name and removes the previous
// one. When it returns an error the previous one has its name still, or
// again.
func (s *Staging) Commit() error {
	s.root.Close()
	previous := s.fresh + "-previous"
	err := os.Rename(s.target, previous)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("output folder: %w", err)
	}
	replaced := err == nil
	if err := os.Rename(s.fresh, s.target); err != nil {
		if replaced {
			err = errors.Join(err, os.Rename(previous, s.target))
		}
		return fmt.Errorf("output folder: %w", err)
	}
	if replaced {
		return os.RemoveAll(previous)
	}
	return nil
}

// Discard removes the fresh folder. After Commit it does nothing.
func (s *Staging) Discard() {
	s.root.Close()
	os.RemoveAll(s.fresh) // what cannot be removed is hidden and harmless
}
