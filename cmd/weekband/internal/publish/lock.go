package publish

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strconv"
	"strings"

	"weekband/cmd/weekband/internal/flock"
)

// lock is held by the one process that writes to a place. It is a file beside
// the place that names the process; the kernel lets go of it when that ends.
type lock struct {
	parent *os.Root
	name   string
	file   *os.File
}

// acquire takes the lock of a place. The error is flock.ErrNone where no locks
// are kept; when another process has it, it names that.
func acquire(parent *os.Root, p place) (*lock, error) {
	l := &lock{parent: parent, name: p.hidden(lockWord)}
	for {
		f, err := parent.OpenFile(l.name, os.O_RDWR|os.O_CREATE, 0o644)
		if err != nil {
			return nil, err
		}
		switch err := flock.Try(f); {
		case errors.Is(err, flock.ErrHeld):
			defer f.Close()
			return nil, fmt.Errorf("%s writes to it now: wait for its end, or name another place with --out", holder(f))
		case err != nil:
			f.Close()
			if errors.Is(err, flock.ErrNone) {
				parent.Remove(l.name)
			}
			return nil, err
		}
		ours, err := l.is(f)
		if err == nil && ours {
			l.file = f
			return l, l.sign()
		}
		f.Close() // another process ended and removed it meanwhile
		if err != nil {
			return nil, err
		}
	}
}

// is reports whether an open file is the one that has the lock's name now.
func (l *lock) is(f *os.File) (bool, error) {
	opened, err := f.Stat()
	if err != nil {
		return false, err
	}
	now, err := l.parent.Lstat(l.name)
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	return err == nil && os.SameFile(opened, now), err
}

// sign writes which process has the lock.
func (l *lock) sign() error {
	err := l.file.Truncate(0)
	if err == nil {
		_, err = l.file.WriteAt([]byte(strconv.Itoa(os.Getpid())+"\n"), 0)
	}
	if err != nil {
		l.release()
	}
	return err
}

// release removes the lock's file and lets go of it. It may be called again,
// and on nil.
func (l *lock) release() {
	if l == nil || l.file == nil {
		return
	}
	l.parent.Remove(l.name) // while it is held, so that nobody else's is removed
	l.file.Close()
	l.file = nil
}

// holder tells which process has signed a lock, and when.
func holder(f *os.File) string {
	text, err := io.ReadAll(io.LimitReader(f, 32))
	pid, err2 := strconv.Atoi(strings.TrimSpace(string(text)))
	info, err3 := f.Stat()
	if errors.Join(err, err2, err3) != nil {
		return "another weekband"
	}
	return fmt.Sprintf("another weekband (process %d, since %s)", pid, info.ModTime().Format("2006-01-02 15:04:05"))
}
