//go:build !linux && !darwin

package publish

import (
	"errors"
	"os"
)

// exchange returns errors.ErrUnsupported: this system cannot.
func exchange(*os.Root, string, string) error { return errors.ErrUnsupported }
