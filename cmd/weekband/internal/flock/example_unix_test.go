package flock_test

import (
	"fmt"
	"os"
	"path/filepath"

	"weekband/cmd/weekband/internal/flock"
)

// A file that is held cannot be held again, not even by the same process, until
// it is closed.
func ExampleTry() {
	dir, err := os.MkdirTemp("", "flock-")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	var files [2]*os.File
	for i := range files {
		if files[i], err = os.Create(filepath.Join(dir, "lock")); err != nil {
			fmt.Println(err)
			return
		}
		defer files[i].Close()
	}
	fmt.Println(flock.Try(files[0]))
	fmt.Println(flock.Try(files[1]))
	files[0].Close()
	fmt.Println(flock.Try(files[1]))
	// Output:
	// <nil>
	// held by another process
	// <nil>
}
