package publish

import (
	"os"

	"golang.org/x/sys/unix"
)

// exchange lets two names of a folder change places in one step (renameat2(2),
// since Linux 3.15).
func exchange(parent *os.Root, a, b string) error {
	return within(parent, func(dir int) error { return unix.Renameat2(dir, a, dir, b, unix.RENAME_EXCHANGE) })
}
