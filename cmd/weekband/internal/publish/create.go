package publish

import (
	"fmt"
	"io"
	"os"
	"path"
)

// Create writes one file under root through w, making its folder if need be.
func Create(root *os.Root, name string, write func(w io.Writer) error) error {
	if err := root.MkdirAll(path.Dir(name), 0o755); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	f, err := root.Create(name)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	if err := write(f); err != nil {
		f.Close()
		return fmt.Errorf("%s: %w", name, err)
	}
	if err := f.Close(); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}
