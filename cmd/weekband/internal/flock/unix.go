//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package flock

import (
	"errors"
	"fmt"
	"os"

	"golang.org/x/sys/unix"
)

// Try holds an open file or folder, alone, until it is closed. It returns
// ErrHeld or ErrNone when it cannot.
func Try(f *os.File) error {
	for {
		err := unix.Flock(int(f.Fd()), unix.LOCK_EX|unix.LOCK_NB)
		switch {
		case err == nil:
			return nil
		case errors.Is(err, unix.EINTR): // a signal came in between
		case errors.Is(err, unix.EWOULDBLOCK):
			return ErrHeld
		case errors.Is(err, errors.ErrUnsupported), errors.Is(err, unix.EINVAL), errors.Is(err, unix.ENOLCK):
			return ErrNone
		default:
			return fmt.Errorf("%s cannot be held for this process alone: %w", f.Name(), err)
		}
	}
}
