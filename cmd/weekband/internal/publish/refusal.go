package publish

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// refusal reports, as an error, why what stands in a place must not be
// replaced. A folder may when it is empty or holds the file marker; Marker must
// be signed too.
func (p place) refusal(marker string) error {
	if p.name == "" {
		return errors.New("it is the root of the file system: name a folder with --out")
	}
	info, err := os.Lstat(p.path())
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case !info.IsDir():
		return errors.New("it is a file, not a folder: name another place with --out, or remove the file")
	case mounted(p.dir, p.path()):
		return errors.New("it is a mount point, which cannot be replaced: name a folder in it with --out")
	case holdsUs(p.path()):
		return errors.New("it holds the folder that you are in, which would be removed with the previous edition: do it from another folder, or name another place with --out")
	}
	entries, err := os.ReadDir(p.path())
	if err != nil {
		return err
	}
	if len(entries) == 0 {
		return nil
	}
	if !slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == marker }) {
		return fmt.Errorf("it holds files that weekband did not write (there is no %s): name another folder with --out, or empty it", marker)
	}
	if marker == Marker && !signed(filepath.Join(p.path(), marker)) {
		return fmt.Errorf("it holds files that weekband did not write (its %s is of another program, or broken): name another folder with --out, or empty it", marker)
	}
	return nil
}

// signed reports whether a file is a JSON object that names weekband as its
// program. Other programs have files called Marker too.
func signed(name string) bool {
	text, err := os.ReadFile(name)
	var maker struct{ Program string }
	return err == nil && json.Unmarshal(text, &maker) == nil && maker.Program == Program
}

// holdsUs reports whether the working directory is a folder or lies in it.
func holdsUs(folder string) bool {
	here, err := os.Getwd()
	return err == nil && holds(folder, here)
}

// holds reports whether a path is a folder or lies in it, links resolved.
func holds(folder, path string) bool {
	path, err := filepath.Abs(path)
	if err != nil {
		return false
	}
	if path, err = filepath.EvalSymlinks(path); err != nil {
		return false
	}
	rest, err := filepath.Rel(folder, path)
	return err == nil && rest != ".." && !strings.HasPrefix(rest, ".."+string(filepath.Separator))
}

// Spare returns an error when a file that must be kept lies in the target,
// with which it would be removed.
func (s *Staging) Spare(files ...string) error {
	for _, file := range files {
		if holds(s.path(), file) {
			return s.wrong(folderKind, fmt.Errorf("it holds %s, which is read and would be removed with the previous edition: move that elsewhere, or name another folder with --out", file))
		}
	}
	return nil
}
