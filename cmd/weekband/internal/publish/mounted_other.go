//go:build !unix

package publish

// mounted reports false: this system mounts nothing on folders of a path.
func mounted(string, string) bool { return false }
