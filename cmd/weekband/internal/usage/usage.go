// Package usage tells what is wrong with a command line from what is wrong with
// files: the first ends the program with an exit code of its own.
//
// It takes words and gives an error. It never knows which command they are of.
package usage

import "fmt"

// Error is a wrong argument that the grammar of the command line allows.
type Error struct{ text string }

// Error implements the interface error.
func (e *Error) Error() string { return e.text }

// Errorf returns an *Error in the manner of fmt.Sprintf; it wraps nothing.
func Errorf(format string, args ...any) error { return &Error{fmt.Sprintf(format, args...)} }
