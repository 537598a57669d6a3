package scratch_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"weekband/cmd/weekband/internal/scratch"
)

// A folder for copies is there until it is closed, and goes with all in it.
func ExampleNew() {
	dir, err := scratch.New("example")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(strings.HasPrefix(filepath.Base(dir.Path()), "weekband-example-"))
	if err := os.WriteFile(filepath.Join(dir.Path(), "copy.tif"), []byte("II*"), 0o644); err != nil {
		fmt.Println(err)
	}
	if err := dir.Close(); err != nil {
		fmt.Println(err)
	}
	_, err = os.Stat(dir.Path())
	fmt.Println(os.IsNotExist(err))
	// Output:
	// true
	// true
}
