package main

import (
	"errors"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"

	"golang.org/x/sys/unix"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/pages"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/survey"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/oracle"
)

// Every file of an edition in turn is the device on which there never is any
// room (full(4)): what writes it must say so, however little it writes.
func TestEveryWriterReportsAFullDisk(t *testing.T) {
	unraced(t)
	root, err := os.OpenRoot(oracle.Memory(t, "size=20m"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() }) // before it is unmounted
	for _, s := range stages(t, root) {
		earlier := files(t, root.Name())
		if err := s.write(); err != nil {
			t.Fatalf("%s: %v", s.name, err)
		}
		written := files(t, root.Name())
		maps.DeleteFunc(written, func(name string, _ []byte) bool { _, known := earlier[name]; return known })
		if len(written) == 0 {
			t.Errorf("%s: it wrote nothing", s.name)
		}
		if s.slow {
			continue
		}
		for _, name := range slices.Sorted(maps.Keys(written)) {
			path := filepath.Join(root.Name(), filepath.FromSlash(name))
			if err := errors.Join(os.Remove(path), unix.Mknod(path, unix.S_IFCHR|0o666, int(unix.Mkdev(1, 7)))); err != nil {
				t.Fatal(err)
			}
			if err := s.write(); !errors.Is(err, syscall.ENOSPC) || !strings.Contains(err.Error(), name) {
				t.Errorf("%s: %s cannot be written, and it returned %v", s.name, name, err)
			}
			if info, err := os.Lstat(path); err != nil || info.Mode()&os.ModeDevice == 0 {
				t.Errorf("%s: %s is no longer the device: %v", s.name, name, err)
			}
			if err := errors.Join(os.Remove(path), os.WriteFile(path, written[name], 0o644)); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// step is a part of a build that writes files.
type step struct {
	name  string
	slow  bool
	write func() error
}

// stages are those of pipeline, for an island with two regions and a place.
func stages(t *testing.T, root *os.Root) []step {
	t.Helper()
	path := islet(t)
	rewrite(t, path, "edition: 2027", "edition: 2027\naddress: https://skerry.example/\npublished: 2026-12-01")
	dir := filepath.Dir(path)
	r, err := recipe.Load(path)
	if err != nil {
		t.Fatal(err)
	}
	o := survey.Order{Recipe: r, Path: path}
	in, err := inputs.Open(t.Context(), r, dir, inputs.MostCells)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(in.Close)
	if err := in.Hash(path); err != nil {
		t.Fatal(err)
	}
	all, err := survey.Take(t.Context(), o, in, root, nil)
	if err != nil {
		t.Fatal(err)
	}
	rows := all.Rows
	drawings, err := tracing.Trace(t.Context(), all.Fields, r.Maps, tracing.DetailOf(r, in), nil)
	if err != nil {
		t.Fatal(err)
	}
	var pictures atlas.Album
	return []step{
		{"pictures", true, func() (err error) {
			pictures, err = atlas.Draw(t.Context(), root, r, nil, in, drawings, rows)
			return err
		}},
		{"tables", false, func() error { _, err := output.WriteTables(root, rows, all.Fields, false); return err }},
		{"data", false, func() error { return output.WriteData(root, in, drawings, true) }},
		{"lookup", false, func() error { return output.WriteLookup(root, r, in, all.Fields, all.Covers) }},
		{"calendars", false, func() error { return output.WriteCalendars(root, r, in.Areas, rows) }},
		{"site", false, func() error { return pages.Write(t.Context(), root, r, in, drawings, rows, pictures, true) }},
		{"manifest", false, func() error { return output.WriteManifest(root, output.NewManifest(r, in, all.Figures)) }},
	}
}
