//go:build !unix

package scratch

import "io/fs"

// mine reports false: where nothing can be held nothing is swept.
func mine(fs.FileInfo) bool { return false }
