package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

// replace writes a file beside its final name and moves it there, so that what
// stood there stays until the new one is whole.
func replace(name string, write func(w io.Writer) error) error {
	f, err := os.CreateTemp(filepath.Dir(name), ".weekband-*")
	if err != nil {
		return fmt.Errorf("%s cannot be written in that folder: %w", name, errors.Unwrap(err))
	}
	defer os.Remove(f.Name()) // gone after the rename
	if err := write(f); err != nil {
		f.Close()
		return err
	}
	if err := f.Chmod(0o644); err != nil {
		f.Close()
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
