package inputs

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
)

// File is a file that an edition was made from.
type File struct {
	Role   string `json:"role"` // the key of the recipe that names it, or "recipe"
	Name   string `json:"name"` // relative to the recipe
	Bytes  int64  `json:"bytes"`
	SHA256 string `json:"sha256"`
}

// hash reads the file through and fills in its size and sum.
func (f *File) hash(path string) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	sum := sha256.New()
	if f.Bytes, err = io.Copy(sum, file); err != nil {
		return fmt.Errorf("%s: %w", path, err)
	}
	f.SHA256 = hex.EncodeToString(sum.Sum(nil))
	return nil
}
