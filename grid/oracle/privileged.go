package oracle

import (
	"os"
	"testing"
)

// Privileged skips the test unless it may mount file systems and become other
// users.
func Privileged(t testing.TB) {
	t.Helper()
	if os.Geteuid() == 0 {
		return
	}
	if os.Getenv("WEEKBAND_ORACLES") == "required" {
		t.Fatal("the tests do not run as root, and WEEKBAND_ORACLES=required")
	}
	t.Skip("needs root, to mount file systems and become other users")
}

// Memory mounts a file system that lives in memory, with options such as
// "size=1m,nr_inodes=100" (tmpfs(5)), until the test ends, and returns where.
func Memory(t testing.TB, options string) string {
	t.Helper()
	Privileged(t)
	dir := t.TempDir()
	Run(t, nil, "mount", "-t", "tmpfs", "-o", options, "tmpfs", dir)
	t.Cleanup(func() { Run(t, nil, "umount", dir) })
	return dir
}
