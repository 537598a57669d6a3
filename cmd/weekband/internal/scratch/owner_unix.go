//go:build unix

package scratch

import (
	"io/fs"
	"os"
	"syscall"
)

// mine reports whether a file belongs to the user of this process.
func mine(info fs.FileInfo) bool {
	stat, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(stat.Uid) == os.Geteuid()
}
