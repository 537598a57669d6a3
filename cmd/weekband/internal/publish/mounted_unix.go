//go:build unix && !linux

package publish

import (
	"os"
	"syscall"
)

// mounted reports whether a folder lies on another device than its parent.
func mounted(parent, folder string) bool {
	device := func(path string) any {
		if info, err := os.Lstat(path); err == nil {
			if stat, ok := info.Sys().(*syscall.Stat_t); ok {
				return stat.Dev
			}
		}
		return nil
	}
	return device(parent) != device(folder)
}
