// Package flock holds files and folders for one process.
//
// It takes an open file and holds it until that is closed, or until the
// process ends in whatever way: the kernel lets go then, so that nothing a
// killed process held stays held. It never waits, and never knows what is
// held for what.
package flock

import "errors"

// ErrHeld says that another process, or another opening of the same file in
// this one, holds it.
var ErrHeld = errors.New("held by another process")

// ErrNone says that the file system or the operating system keeps no locks.
var ErrNone = errors.New("no locks are kept here")
