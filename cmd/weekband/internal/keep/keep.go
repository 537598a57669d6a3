package keep

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"
)

// DefaultLimit bounds the folder: several editions of a country.
const DefaultLimit = 2 << 30 // bytes

// entryShare is the largest part of the limit that one entry may take.
const entryShare = 4

// suffix ends the names of entries; nothing else in the folder is ever read or
// removed.
const suffix = ".kept"

// Store is a folder of entries. The nil Store keeps nothing. Its methods may be
// called by several goroutines at a time.
type Store struct {
	dir     string
	limit   int64
	program [sha256.Size]byte

	mu      sync.Mutex
	trouble error // the first that kept an entry from being written
}

// Open returns the store in a folder, which is made when the first entry is
// put, with entries of limit bytes in all. It returns an error when the
// program cannot tell itself from other builds.
func Open(dir string, limit int64) (*Store, error) {
	s := &Store{dir: dir, limit: limit}
	path, err := os.Executable()
	if err != nil {
		return nil, err
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, f); err != nil {
		return nil, err
	}
	sum.Sum(s.program[:0])
	return s, nil
}

// Key names an entry: a SHA-256 of all it was made of but the program.
type Key = [sha256.Size]byte

// path returns where the entry of a key lies.
func (s *Store) path(k Key) string {
	sum := sha256.New()
	sum.Write(s.program[:])
	sum.Write(k[:])
	name := hex.EncodeToString(sum.Sum(nil))
	return filepath.Join(s.dir, name[:2], name[2:]+suffix)
}

// Get returns what was put under a key. ok is false when nothing was, or when
// it is no longer what was put.
func (s *Store) Get(k Key) (data []byte, ok bool) {
	if s == nil {
		return nil, false
	}
	path := s.path(k)
	data, err := os.ReadFile(path)
	if err != nil || len(data) < sha256.Size {
		return nil, false
	}
	data, sum := data[:len(data)-sha256.Size], data[len(data)-sha256.Size:]
	if want := sumOf(k, data); !bytes.Equal(sum, want[:]) {
		os.Remove(path)
		return nil, false
	}
	now := time.Now() // read last: Trim removes what was not for longest
	os.Chtimes(path, now, now)
	return data, true
}

// sumOf is the sum that an entry ends with: its key counts, so that a file
// under another's name is none.
func sumOf(k Key, data []byte) (sum [sha256.Size]byte) {
	h := sha256.New()
	h.Write(k[:])
	h.Write(data)
	h.Sum(sum[:0])
	return sum
}

// Put keeps data under a key, if it can.
func (s *Store) Put(k Key, data []byte) {
	if s == nil || int64(len(data)) > s.limit/entryShare {
		return
	}
	if err := s.put(k, data); err != nil {
		s.mu.Lock()
		s.trouble = cmp.Or(s.trouble, err)
		s.mu.Unlock()
	}
}

func (s *Store) put(k Key, data []byte) error {
	path := s.path(k)
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return err
	}
	f, err := os.CreateTemp(filepath.Dir(path), "new-*"+suffix)
	if err != nil {
		return err
	}
	sum := sumOf(k, data)
	_, err = f.Write(data)
	if err == nil {
		_, err = f.Write(sum[:])
	}
	if err = cmp.Or(err, f.Close()); err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		os.Remove(f.Name())
	}
	return err
}

// Trouble returns why some entry could not be written, nil when all could.
func (s *Store) Trouble() error {
	if s == nil {
		return nil
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.trouble
}

// Trim removes the entries that were not read or written for longest, until
// the rest fits the limit.
func (s *Store) Trim() error {
	if s == nil {
		return nil
	}
	type entry struct {
		path string
		used time.Time
		size int64
	}
	var all []entry
	var total int64
	err := filepath.WalkDir(s.dir, func(path string, d fs.DirEntry, err error) error {
		if errors.Is(err, fs.ErrNotExist) { // removed by someone else
			return nil
		}
		if err != nil || d.IsDir() || filepath.Ext(path) != suffix {
			return err
		}
		info, err := d.Info()
		if err != nil {
			return nil // removed by someone else
		}
		all = append(all, entry{path, info.ModTime(), info.Size()})
		total += info.Size()
		return nil
	})
	if err != nil {
		return fmt.Errorf("kept work: %w", err)
	}
	slices.SortFunc(all, func(a, b entry) int {
		return cmp.Or(a.used.Compare(b.used), cmp.Compare(a.path, b.path))
	})
	for _, e := range all {
		if total <= s.limit {
			return nil
		}
		if err := os.Remove(e.path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("kept work: %w", err)
		}
		total -= e.size
	}
	return nil
}
