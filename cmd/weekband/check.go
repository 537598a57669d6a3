package main

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/cause"
	"weekband/cmd/weekband/internal/progress"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/scratch"
	"weekband/cmd/weekband/internal/survey"
)

// check builds an edition into a temporary folder, tells on out what a build
// would change of the one that stands, and removes it again.
func check(ctx context.Context, o survey.Order, out io.Writer, say *progress.Teller) error {
	dir, err := scratch.New("check")
	if err != nil {
		return err
	}
	defer dir.Close()
	root, err := os.OpenRoot(dir.Path())
	if err != nil {
		return err
	}
	defer root.Close()
	spare := func(...string) error { return nil } // nothing is removed
	if err := edition(ctx, o, root, spare, say); err != nil {
		return err
	}
	stands, note := publish.Standing(o.Out)
	if note != "" {
		say.Note(note)
	}
	text, err := wouldChange(o.Out, os.DirFS(stands), root.FS())
	if err == nil {
		_, err = io.WriteString(out, text)
	}
	return err
}

// change is what would become of the files of an edition.
type change struct {
	other, fresh, gone, same []string // with other contents, not there yet, no longer
	bytes                    int64    // of the new edition
}

// differing compares the files of two editions.
func differing(before, after fs.FS) (c change, err error) {
	old, err := list(before)
	if err != nil {
		return c, err
	}
	made, err := list(after)
	if err != nil {
		return c, err
	}
	for _, name := range slices.Sorted(maps.Keys(made)) {
		c.bytes += made[name]
		size, was := old[name]
		if !was {
			c.fresh = append(c.fresh, name)
			continue
		}
		same := size == made[name]
		if same {
			if same, err = equal(before, after, name); err != nil {
				return c, err
			}
		}
		if same {
			c.same = append(c.same, name)
		} else {
			c.other = append(c.other, name)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(old)) {
		if _, stays := made[name]; !stays {
			c.gone = append(c.gone, name)
		}
	}
	return c, nil
}

// list returns the files of a folder with their sizes; none when there is no
// folder.
func list(fsys fs.FS) (map[string]int64, error) {
	out := map[string]int64{}
	err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if name == "." && errors.Is(err, fs.ErrNotExist) {
			return fs.SkipAll
		}
		if err != nil || d.IsDir() {
			return err
		}
		info, err := d.Info()
		if err == nil {
			out[name] = info.Size()
		}
		return err
	})
	return out, err
}

// equal reports whether a file is the same in both.
func equal(a, b fs.FS, name string) (bool, error) {
	one, err := fs.ReadFile(a, name)
	if err != nil {
		return false, err
	}
	other, err := fs.ReadFile(b, name)
	return bytes.Equal(one, other), err
}

// wouldChange tells what a build would make of the edition in a folder.
func wouldChange(name string, before, after fs.FS) (string, error) {
	c, err := differing(before, after)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	files := len(c.other) + len(c.fresh) + len(c.same)
	size := fmt.Sprintf("%d files of %.1f MB", files, float64(c.bytes)/1e6)
	switch {
	case len(c.same)+len(c.other)+len(c.gone) == 0:
		fmt.Fprintf(&b, "%s does not stand yet: a build would write %s.\n", name, size)
		return b.String(), nil
	case files == len(c.same) && len(c.gone) == 0:
		fmt.Fprintf(&b, "%s would stay as it is: %s, the same to the byte.\n", name, size)
		return b.String(), nil
	}
	fmt.Fprintf(&b, "%s would change: of %s %d would be others, %d new; %d would go. Nothing was written.\n", name, size, len(c.other), len(c.fresh), len(c.gone))
	because(&b, before, after)
	for _, part := range []struct {
		what  string
		names []string
	}{{"other", c.other}, {"new", c.fresh}, {"gone", c.gone}} {
		byFolder(&b, part.what, part.names)
	}
	return b.String(), nil
}

// because tells why, as far as the manifests of both tell.
func because(b *strings.Builder, before, after fs.FS) {
	was, err := cause.Read(before)
	is, wrong := cause.Read(after)
	if cmp.Or(err, wrong) != nil {
		return // a folder that weekband did not write has no manifest to ask
	}
	var windows [][2]string
	for _, w := range is.Windows {
		windows = append(windows, [2]string{w.ID, w.ID})
	}
	for _, c := range cause.Between(&was, &is, windows) {
		fmt.Fprintf(b, "  because of %s\n", c.Text)
	}
}

// byFolder lists files folder by folder, the first few of each by name.
func byFolder(b *strings.Builder, what string, names []string) {
	const shown = 4
	folders := map[string][]string{}
	for _, name := range names {
		folders[path.Dir(name)] = append(folders[path.Dir(name)], path.Base(name))
	}
	for _, dir := range slices.Sorted(maps.Keys(folders)) {
		in := folders[dir]
		more := ""
		if len(in) > shown {
			more = fmt.Sprintf(" and %d more", len(in)-shown)
			in = in[:shown]
		}
		if dir == "." {
			dir = "the folder itself"
		}
		fmt.Fprintf(b, "  %s in %s: %s%s\n", what, dir, strings.Join(in, ", "), more)
	}
}
