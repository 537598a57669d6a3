package keep

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"
)

func open(t *testing.T, limit int64) *Store {
	t.Helper()
	s, err := Open(filepath.Join(t.TempDir(), "deep", "work"), limit)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func key(i int) (k Key) {
	copy(k[:], fmt.Sprint("work ", i))
	return k
}

// entries returns the files of a store.
func entries(t *testing.T, s *Store) []string {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(s.dir, "*", "*"))
	if err != nil {
		t.Fatal(err)
	}
	return list
}

func TestGivesBackWhatWasPut(t *testing.T) {
	s := open(t, DefaultLimit)
	for i, data := range [][]byte{nil, []byte("a map"), bytes.Repeat([]byte("pixels"), 1e5)} {
		if got, ok := s.Get(key(i)); ok {
			t.Fatalf("before anything was put: %q", got)
		}
		s.Put(key(i), data)
		if got, ok := s.Get(key(i)); !ok || !bytes.Equal(got, data) {
			t.Errorf("entry %d: %d bytes, %v, want %d", i, len(got), ok, len(data))
		}
	}
	s.Put(key(1), []byte("another map"))
	if got, ok := s.Get(key(1)); !ok || string(got) != "another map" {
		t.Errorf("put twice: %q, %v", got, ok)
	}
	if err := s.Trouble(); err != nil {
		t.Error(err)
	}
}

// A byte changed anywhere in a file, a file cut short at any length and one
// under the name of another give nothing.
func TestDamageGivesNothing(t *testing.T) {
	s := open(t, DefaultLimit)
	data := []byte("twelve weeks")
	s.Put(key(1), data)
	path := s.path(key(1))
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	damaged := map[string][]byte{"longer": append(bytes.Clone(whole), 0)}
	for i := range whole {
		flipped := bytes.Clone(whole)
		flipped[i] ^= 1
		damaged[fmt.Sprint("flipped ", i)] = flipped
		damaged[fmt.Sprint("cut to ", i)] = whole[:i]
	}
	for name, file := range damaged {
		if err := os.WriteFile(path, file, 0o600); err != nil {
			t.Fatal(err)
		}
		if got, ok := s.Get(key(1)); ok {
			t.Errorf("%s: %q", name, got)
		}
	}
	if err := os.WriteFile(path, whole, 0o600); err != nil {
		t.Fatal(err)
	}
	if got, ok := s.Get(key(1)); !ok || !bytes.Equal(got, data) {
		t.Errorf("whole again: %q, %v", got, ok)
	}
	s.Put(key(2), []byte("other"))
	if err := os.Rename(path, s.path(key(2))); err != nil {
		t.Fatal(err)
	}
	if got, ok := s.Get(key(2)); ok {
		t.Errorf("under another's name: %q", got)
	}
}

func TestAnotherProgramHasItsOwn(t *testing.T) {
	s := open(t, DefaultLimit)
	s.Put(key(1), []byte("of version 1"))
	other := &Store{dir: s.dir, limit: s.limit, program: s.program}
	other.program[0]++
	if got, ok := other.Get(key(1)); ok {
		t.Errorf("another program got %q", got)
	}
}

// Trim removes what was not used for longest, and keeps what was read lately.
func TestTrimKeepsTheLatest(t *testing.T) {
	const size = 1000
	s := open(t, 10*size)
	old := time.Now().Add(-time.Hour)
	for i := range 20 {
		s.Put(key(i), make([]byte, size-32)) // a sum of 32 bytes follows
		when := old.Add(time.Duration(i) * time.Second)
		if err := os.Chtimes(s.path(key(i)), when, when); err != nil {
			t.Fatal(err)
		}
	}
	s.Get(key(3))
	foreign := filepath.Join(s.dir, "letter.txt")
	if err := os.WriteFile(foreign, make([]byte, 50*size), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := s.Trim(); err != nil {
		t.Fatal(err)
	}
	for i := range 20 {
		if _, ok := s.Get(key(i)); ok != (i == 3 || i > 10) {
			t.Errorf("entry %d is there: %v", i, ok)
		}
	}
	if _, err := os.Stat(foreign); err != nil {
		t.Errorf("a file that is no entry: %v", err)
	}
	s.Put(key(99), make([]byte, 3*size))
	if _, ok := s.Get(key(99)); ok {
		t.Error("an entry of more than a quarter of the limit was kept")
	}
}

// The folder may go at any time, and several may use it at once.
func TestSharedAndDeleted(t *testing.T) {
	s := open(t, DefaultLimit)
	again := &Store{dir: s.dir, limit: s.limit, program: s.program}
	var all sync.WaitGroup
	for _, store := range []*Store{s, s, again, again} {
		all.Go(func() {
			for i := range 200 {
				want := fmt.Sprint("result ", i)
				if got, ok := store.Get(key(i)); ok && string(got) != want {
					t.Errorf("got %q, want %q", got, want)
				}
				store.Put(key(i), []byte(want))
			}
		})
	}
	for range 20 {
		os.RemoveAll(s.dir)
		time.Sleep(time.Millisecond)
		if err := s.Trim(); err != nil {
			t.Error(err)
		}
	}
	all.Wait()
	os.RemoveAll(s.dir)
	if _, ok := s.Get(key(1)); ok {
		t.Error("the folder is gone, the entry not")
	}
	s.Put(key(1), []byte("new"))
	if got, ok := s.Get(key(1)); !ok || string(got) != "new" {
		t.Errorf("after the folder was deleted: %q, %v", got, ok)
	}
	if len(entries(t, s)) != 1 {
		t.Errorf("left behind: %q", entries(t, s))
	}
}

// A store that cannot write forgets and says why; the nil store says nothing.
func TestNowhereToWrite(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := Open(file, DefaultLimit)
	if err != nil {
		t.Fatal(err)
	}
	s.Put(key(1), []byte("x"))
	if _, ok := s.Get(key(1)); ok || s.Trouble() == nil {
		t.Errorf("kept in a file: %v, trouble %v", ok, s.Trouble())
	}
	var none *Store
	none.Put(key(1), []byte("x"))
	if _, ok := none.Get(key(1)); ok || none.Trouble() != nil || none.Trim() != nil {
		t.Error("the nil store keeps or complains")
	}
}

func ExampleOpen() {
	dir, err := os.MkdirTemp("", "keep-")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	s, err := Open(dir, DefaultLimit)
	if err != nil {
		panic(err)
	}
	s.Put(Key{1}, []byte("a picture"))
	data, ok := s.Get(Key{1})
	fmt.Printf("%s %v\n", data, ok)
	// Output: a picture true
}
