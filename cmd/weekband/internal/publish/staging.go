package publish

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"weekband/cmd/weekband/internal/flock"
)

// Marker is the file every published edition holds: a JSON object in which
// "program" is Program. A folder that has other things in it but no such file
// is not ours, and is never replaced.
const (
	Marker  = "manifest.json"
	Program = "weekband"
)

// Staging is a fresh folder beside the place that it is for.
type Staging struct {
	place
	marker string
	parent *os.Root
	lock   *lock    // nil where no locks are kept
	fresh  string   // within parent; "" once it is published or gone
	root   *os.Root // fresh
	ready  bool     // all is written; what is left is to publish it
	notes  []string
}

const folderKind = "output folder"

// Begin makes a fresh folder beside target, whose parents are made if need
// be, and holds target for this process. It returns an error when target must
// not be replaced, when another process writes to it, or when nothing can be
// written there. End must follow.
func Begin(target string) (*Staging, error) { return BeginMarked(target, Marker) }

// BeginMarked is Begin for folders of another kind, each of which holds the
// file marker: it replaces only folders of that kind.
func BeginMarked(target, marker string) (*Staging, error) {
	p, err := locate(target)
	if err != nil {
		return nil, place{shown: target}.wrong(folderKind, err)
	}
	if err := p.refusal(marker); err != nil {
		return nil, p.wrong(folderKind, err)
	}
	s := &Staging{place: p, marker: marker}
	if err := s.prepare(); err != nil {
		s.Discard()
		return nil, p.wrong(folderKind, err)
	}
	return s, nil
}

// prepare takes the lock, tidies up and makes the fresh folder.
func (s *Staging) prepare() (err error) {
	if s.parent, err = s.place.open(); err != nil {
		return err
	}
	if err := s.secure(); err != nil {
		return err
	}
	if err := s.restore(); err != nil {
		return err
	}
	if s.lock != nil {
		if err := s.sweep(s.hidden(previousWord)); err != nil { // after restore: a newer edition stands
			return err
		}
	}
	if err := s.makeFresh(); err != nil {
		return err
	}
	s.root, err = s.parent.OpenRoot(s.fresh)
	return err
}

// secure takes the lock, where locks are kept.
func (s *Staging) secure() (err error) {
	s.lock, err = acquire(s.parent, s.place)
	if errors.Is(err, flock.ErrNone) {
		s.note("no locks are kept in %s: do not run two builds into %s at once", s.dir, s.shown)
		return nil
	}
	return err
}

// makeFresh makes a folder under a name that was free.
func (s *Staging) makeFresh() error {
	for number := os.Getpid(); ; number++ {
		name := s.hidden(fmt.Sprintf("%s%d", freshWord, number))
		err := s.parent.Mkdir(name, 0o755)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err == nil {
			s.fresh = name
		}
		return err
	}
}

func (s *Staging) note(format string, args ...any) {
	s.notes = append(s.notes, fmt.Sprintf(format, args...))
}

// Notes are what the user should know about how it went so far. They do not
// belong into what is published.
func (s *Staging) Notes() []string { return s.notes }

// Root is the fresh folder.
func (s *Staging) Root() *os.Root { return s.root }

// Commit sees to it that the fresh folder is on the disk, gives it the
// target's name, removes the previous one and lets go of the target. When it
// returns an error, such as that of ctx, the previous one has its name still,
// or again.
func (s *Staging) Commit(ctx context.Context) error {
	if err := s.refusal(s.marker); err != nil { // others may have come since Begin
		return s.wrong(folderKind, err)
	}
	s.ready = true
	if err := flush(ctx, s.root); err != nil {
		return err
	}
	s.root.Close()
	s.keepMode()
	previous, err := s.swap()
	if err != nil {
		return fmt.Errorf("%s %s: what was built cannot take this name: %w", folderKind, s.shown, err)
	}
	s.fresh = ""
	if err := flushOne(s.parent, "."); err != nil {
		s.note("the new edition stands, but the disk does not say that it keeps it: %v", err)
	}
	if previous != "" {
		s.remove(previous, "the previous edition")
	}
	s.Discard()
	return nil
}

// keepMode gives what is fresh the permissions of what it takes the place of,
// as its owner has them, where the file system can.
func (s *Staging) keepMode() {
	if info, err := s.parent.Stat(s.name); err == nil {
		s.parent.Chmod(s.fresh, info.Mode().Perm())
	}
}

// Discard removes the fresh folder and lets go of the target. After Commit it
// does nothing.
func (s *Staging) Discard() {
	if s.root != nil {
		s.root.Close()
	}
	if s.parent == nil {
		return
	}
	if s.fresh != "" {
		s.parent.RemoveAll(s.fresh) // what cannot be removed is hidden, and the next Begin tries again
	}
	s.lock.release()
	s.parent.Close()
}

// End is Discard at the end of a run that returns an error, or nil. It returns
// the error with what to do about a disk that is full, cannot be written or
// was tidied up by others.
func (s *Staging) End(err error) error {
	defer s.Discard()
	if err == nil {
		return nil
	}
	words := writing(err)
	if s.ready {
		words = advice(err)
	}
	if _, gone := s.parent.Lstat(s.fresh); s.fresh != "" && errors.Is(gone, fs.ErrNotExist) {
		words = "the hidden folder that it was written to was removed meanwhile; do it again"
	}
	if words == "" {
		return err
	}
	if s.stands(s.parent) {
		words += fmt.Sprintf("; what stood in %s before stands still", s.shown)
	}
	return fmt.Errorf("%w: %s", err, words)
}
