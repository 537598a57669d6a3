package publish

import (
	"errors"
	"io/fs"
	"slices"
	"syscall"
)

// swap gives the fresh folder the place's name and returns under which name
// the previous one, if any, is now. When it returns an error the previous one
// has its name still, or again.
func (s *Staging) swap() (previous string, err error) {
	err = exchange(s.parent, s.fresh, s.name)
	switch {
	case err == nil:
		return s.fresh, nil
	case errors.Is(err, fs.ErrNotExist): // nothing has the name yet
		return "", s.parent.Rename(s.fresh, s.name)
	case errors.Is(err, errors.ErrUnsupported), errors.Is(err, syscall.EINVAL): // EINVAL: by this file system
		return s.stepAside()
	}
	return "", err
}

// stepAside is swap in two steps, between which nothing has the name. A
// process that ends there leaves the previous one to restore.
func (s *Staging) stepAside() (previous string, err error) {
	previous = s.hidden(previousWord)
	err = s.parent.Rename(s.name, previous)
	none := errors.Is(err, fs.ErrNotExist)
	if err != nil && !none {
		return "", err
	}
	if err := s.parent.Rename(s.fresh, s.name); err != nil {
		if !none {
			err = errors.Join(err, s.parent.Rename(previous, s.name))
		}
		return "", err
	}
	if none {
		return "", nil
	}
	return previous, nil
}

// restore gives the previous edition its name again when a process has ended
// between the two steps of stepAside.
func (s *Staging) restore() error {
	previous := s.hidden(previousWord)
	if _, err := s.parent.Lstat(previous); err != nil || s.stands(s.parent) {
		return nil
	}
	s.parent.Remove(s.name) // an empty folder, which some systems do not rename over
	if err := s.parent.Rename(previous, s.name); err != nil {
		return err
	}
	s.note("a run that was ended while it published had left the previous edition hidden; it is in %s again", s.shown)
	return nil
}

// sweep removes what ended processes have left beside the place, with further
// names. The lock must be held.
func (s *Staging) sweep(further ...string) error {
	f, err := s.parent.Open(".")
	if err != nil {
		return err
	}
	defer f.Close()
	names, err := f.Readdirnames(-1)
	if err != nil {
		return err
	}
	for _, name := range names {
		if s.isFresh(name) || slices.Contains(further, name) {
			s.remove(name, "what an earlier run has left")
		}
	}
	return nil
}

// remove removes a folder beside the place, or notes that it cannot.
func (s *Staging) remove(name, what string) {
	s.parent.Chmod(name, 0o700) // its owner may have forbidden changes
	if err := s.parent.RemoveAll(name); err != nil {
		s.note("%s cannot be removed (%v) and stays hidden in %s; remove it by hand", what, err, s.dir)
	}
}
