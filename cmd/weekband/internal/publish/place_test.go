package publish_test

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/oracle"
)

// Targets that are refused, before anything is written.
func TestRefusals(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	if err := os.WriteFile(file, []byte("dear"), 0o644); err != nil {
		t.Fatal(err)
	}
	lost := filepath.Join(dir, "lost")
	if err := os.Symlink("nowhere", lost); err != nil {
		t.Fatal(err)
	}
	within := filepath.Join(dir, "within")
	s, err := publish.Begin(within)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.End(fill(s, "first")); err != nil {
		t.Fatal(err)
	}
	t.Chdir(filepath.Join(within, "part-1"))
	for _, c := range []struct{ name, target, want string }{
		{"a file", file, "it is a file, not a folder"},
		{"a folder in a file", filepath.Join(file, "vale"), "a part of that path is a file"},
		{"a link to nothing", lost, "it is a link to something that is not there"},
		{"the root", "/", "it is the root of the file system"},
		{"the folder one is in", ".", "it holds the folder that you are in"},
		{"the folder above that", within, "it holds the folder that you are in"},
		{"a very long name", filepath.Join(dir, strings.Repeat("vale", 64)), "name a shorter one"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := begun(c.target)
			if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "output folder "+c.target+": ") {
				t.Errorf("said %v, want %s", err, c.want)
			}
		})
	}
	edition(t, within)
	if left, _ := os.ReadDir(dir); len(left) != 3 {
		t.Errorf("left behind: %v", left)
	}
}

func TestMountPointIsRefused(t *testing.T) {
	disk := oracle.Memory(t, "size=1m")
	for name, prepare := range map[string]func() string{
		"another disk": func() string { return disk },
		"a folder of this disk": func() string {
			dir := filepath.Join(disk, "vale")
			if err := os.Mkdir(dir, 0o755); err != nil {
				t.Fatal(err)
			}
			oracle.Run(t, nil, "mount", "--bind", dir, dir)
			t.Cleanup(func() { oracle.Run(t, nil, "umount", dir) })
			return dir
		},
	} {
		if err := begun(prepare()); err == nil || !strings.Contains(err.Error(), "it is a mount point, which cannot be replaced: name a folder in it") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Names as long as the file system takes, of letters of several bytes too, and
// names that look like those of what is hidden.
func TestOddNames(t *testing.T) {
	for _, name := range []string{strings.Repeat("v", 255), strings.Repeat("å", 127), "vale.fresh-7", "-", "va le", "väle\n"} {
		dir := t.TempDir()
		target := filepath.Join(dir, name)
		again(t, target, "first")
		again(t, target, "second")
	}
	// What is written for one name is not swept for another.
	target := filepath.Join(t.TempDir(), "vale")
	s, err := publish.Begin(target + ".fresh-x")
	if err != nil {
		t.Fatal(err)
	}
	other, err := publish.Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	if err := other.End(fill(other, "first")); err != nil {
		t.Fatal(err)
	}
	if err := s.End(fill(s, "second")); err != nil {
		t.Error(err)
	}
}

// A link to a folder stays, and what it names is replaced.
func TestLinkStays(t *testing.T) {
	dir := t.TempDir()
	target, link := filepath.Join(dir, "disk", "vale"), filepath.Join(dir, "vale")
	again(t, target, "first")
	if err := os.Symlink(filepath.Join("disk", "vale"), link); err != nil {
		t.Fatal(err)
	}
	s, err := publish.Begin(link)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.End(fill(s, "second")); err != nil {
		t.Fatal(err)
	}
	if to, err := os.Readlink(link); err != nil || to != filepath.Join("disk", "vale") {
		t.Errorf("the link names %s, %v", to, err)
	}
	if which := edition(t, target); which != "second" {
		t.Errorf("it stands %s", which)
	}
	alone(t, target)
}

// Others remove the folder that is written to, or the one above.
func TestRemovedMeanwhile(t *testing.T) {
	for _, what := range []string{"fresh", "above"} {
		target := filepath.Join(t.TempDir(), "out", "vale")
		again(t, target, "first")
		s, err := publish.Begin(target)
		if err != nil {
			t.Fatal(err)
		}
		if what == "fresh" {
			err = os.RemoveAll(s.Root().Name())
		} else {
			err = os.RemoveAll(filepath.Dir(target))
		}
		if err != nil {
			t.Fatal(err)
		}
		err = s.End(fill(s, "second"))
		if err == nil || !strings.Contains(err.Error(), "was removed meanwhile; do it again") {
			t.Errorf("%s: %v", what, err)
		}
		if what == "fresh" {
			edition(t, target)
		}
		again(t, target, "third")
	}
}

// What a build reads may lie beside its target, and not in it.
func TestSpare(t *testing.T) {
	dir := t.TempDir()
	target := filepath.Join(dir, "vale")
	again(t, target, "first")
	beside, within, link := filepath.Join(dir, "vale.yaml"), filepath.Join(target, "part-1", "vale.yaml"), filepath.Join(dir, "link.yaml")
	if err := errors.Join(os.WriteFile(beside, nil, 0o644), os.WriteFile(within, nil, 0o644), os.Symlink(within, link)); err != nil {
		t.Fatal(err)
	}
	s, err := publish.Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Discard()
	if err := s.Spare(beside, filepath.Join(dir, "none")); err != nil {
		t.Error(err)
	}
	for _, name := range []string{within, link} {
		if err := s.Spare(beside, name); err == nil || !strings.Contains(err.Error(), "it holds "+name+", which is read and would be removed") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Someone puts a letter where the edition is to go while it is written.
func TestForeignFolderMeanwhile(t *testing.T) {
	target := filepath.Join(t.TempDir(), "vale")
	s, err := publish.Begin(target)
	if err != nil {
		t.Fatal(err)
	}
	letter := filepath.Join(target, "letter.txt")
	if err := errors.Join(os.Mkdir(target, 0o755), os.WriteFile(letter, []byte("dear"), 0o644)); err != nil {
		t.Fatal(err)
	}
	if err := s.End(fill(s, "first")); err == nil || !strings.Contains(err.Error(), "weekband did not write") {
		t.Errorf("said %v", err)
	}
	if read(t, letter) != "dear" {
		t.Error("the letter is gone")
	}
	alone(t, target)
}

func TestFile(t *testing.T) {
	dir := t.TempDir()
	name, link := filepath.Join(dir, "offsets.csv"), filepath.Join(dir, "link.csv")
	text := func(words string, err error) func(io.Writer) error {
		return func(w io.Writer) error {
			io.WriteString(w, words)
			return err
		}
	}
	killed, hidden := filepath.Join(dir, ".offsets.csv.fresh-77"), filepath.Join(dir, ".offsets.csv.previous")
	if err := errors.Join(os.WriteFile(killed, []byte("half"), 0o644), os.Mkdir(hidden, 0o755)); err != nil {
		t.Fatal(err)
	}
	if err := publish.File(name, text("first", nil)); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(killed); err == nil {
		t.Error("what a killed run has left is still there")
	}
	if err := os.Remove(hidden); err != nil {
		t.Errorf("a folder of that name is not this file's: %v", err)
	}
	if err := errors.Join(os.Chmod(name, 0o600), os.Symlink("offsets.csv", link)); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("no such station")
	if err := publish.File(name, text("half", broken)); !errors.Is(err, broken) || read(t, name) != "first" {
		t.Errorf("after %v it holds %q", err, read(t, name))
	}
	if err := publish.File(link, text("second", nil)); err != nil || read(t, name) != "second" {
		t.Errorf("after %v it holds %q", err, read(t, name))
	}
	if info, err := os.Lstat(link); err != nil || info.Mode().IsRegular() {
		t.Errorf("the link became a file: %v", err)
	}
	if info, err := os.Stat(name); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
	if err := publish.File(dir, text("", nil)); err == nil || !strings.Contains(err.Error(), "it is a folder: name a file") {
		t.Errorf("a folder: %v", err)
	}
	if err := publish.File(filepath.Join(dir, "none", "x"), text("", nil)); err == nil || !strings.Contains(err.Error(), "output file") {
		t.Errorf("no folder: %v", err)
	}
	if left, _ := os.ReadDir(dir); len(left) != 2 {
		t.Errorf("left behind: %v", left)
	}
}
