package publish

import (
	"os"

	"golang.org/x/sys/unix"
)

// exchange lets two names of a folder change places in one step
// (renameatx_np(2), since macOS 10.12).
func exchange(parent *os.Root, a, b string) error {
	return within(parent, func(dir int) error { return unix.RenameatxNp(dir, a, dir, b, unix.RENAME_SWAP) })
}
