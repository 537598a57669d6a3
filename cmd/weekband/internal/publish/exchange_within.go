//go:build linux || darwin

package publish

import "os"

// within calls a function with the descriptor of a folder.
func within(parent *os.Root, do func(dir int) error) error {
	f, err := parent.Open(".")
	if err != nil {
		return err
	}
	defer f.Close()
	return do(int(f.Fd()))
}
