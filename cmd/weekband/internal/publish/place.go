package publish

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// place is where something is published: a name within a folder, with links
// resolved.
type place struct {
	shown     string // as the user wrote it
	dir, name string // dir is absolute
}

// locate resolves a name, which need not be there yet. A link that leads
// nowhere is an error.
func locate(shown string) (place, error) {
	path, err := filepath.Abs(shown)
	if err != nil {
		return place{}, err
	}
	resolved, err := filepath.EvalSymlinks(path)
	switch {
	case err == nil:
		path = resolved
	case !errors.Is(err, fs.ErrNotExist):
		return place{}, err
	default:
		if info, err := os.Lstat(path); err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return place{}, errors.New("it is a link to something that is not there: remove the link, or make what it names")
		}
	}
	dir, name := filepath.Split(path)
	return place{shown: shown, dir: filepath.Clean(dir), name: name}, nil
}

func (p place) path() string { return filepath.Join(p.dir, p.name) }

// longest is how many bytes of a name stand in the names of what is hidden
// beside it, so that these stay within the 255 of common file systems.
const longest = 180

// hidden is the name beside the place that ends in a word.
func (p place) hidden(word string) string {
	name := p.name
	if len(name) > longest {
		sum := sha256.Sum256([]byte(name))
		name = strings.ToValidUTF8(name[:longest-17], "") + "-" + hex.EncodeToString(sum[:8])
	}
	return "." + name + "." + word
}

// Words of hidden names.
const (
	freshWord    = "fresh-" // and a number: what is being written; after an exchange, the previous edition
	previousWord = "previous"
	lockWord     = "lock"
)

// isFresh reports whether a name is one of those under which something is
// being written for this place.
func (p place) isFresh(name string) bool {
	number, ok := strings.CutPrefix(name, p.hidden(freshWord))
	return ok && number != "" && strings.Trim(number, "0123456789") == ""
}

// open makes the folder that holds the place, if need be, and opens it.
func (p place) open() (*os.Root, error) {
	if err := os.MkdirAll(p.dir, 0o755); err != nil {
		return nil, err
	}
	return os.OpenRoot(p.dir)
}

// stands reports whether the place holds anything: a folder with something in
// it, or a file.
func (p place) stands(parent *os.Root) bool {
	f, err := parent.Open(p.name)
	if err != nil {
		return !errors.Is(err, fs.ErrNotExist)
	}
	defer f.Close()
	names, err := f.Readdirnames(1)
	return err != nil && !isEnd(err) || len(names) > 0
}

// wrong is an error about a place: what, where, and what to do.
func (p place) wrong(kind string, err error) error {
	words := advice(err)
	if words != "" {
		words = ": " + words
	}
	if at, ok := errors.AsType[*fs.PathError](err); ok { // names of an os.Root are within it
		if path := at.Path; !filepath.IsAbs(path) {
			return fmt.Errorf("%s %s: %s: %w%s", kind, p.shown, filepath.Join(p.dir, path), at.Err, words)
		}
	}
	return fmt.Errorf("%s %s: %w%s", kind, p.shown, err, words)
}
