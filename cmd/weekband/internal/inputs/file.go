package inputs

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
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

// path returns where a file of the recipe lies.
func (in *Set) path(name string) string {
	if filepath.IsAbs(name) {
		return name
	}
	return filepath.Join(in.dir, name)
}

// Paths returns where the files that were read lie.
func (in *Set) Paths() (list []string) {
	for _, f := range in.Files {
		list = append(list, in.path(f.Name))
	}
	return list
}

// used remembers a file that was read and what for, by its name relative to
// the recipe.
func (in *Set) used(role, path string) {
	if rel, err := filepath.Rel(in.dir, path); err == nil && filepath.IsLocal(rel) {
		path = filepath.ToSlash(rel)
	}
	f := File{Role: role, Name: path}
	if !slices.Contains(in.Files, f) {
		in.Files = append(in.Files, f)
	}
}

// Hash fills in the sums of all files that were read and puts the recipe
// before them.
func (in *Set) Hash(recipePath string) error {
	in.Files = slices.Insert(in.Files, 0, File{Role: "recipe", Name: filepath.Base(recipePath)})
	for i := range in.Files {
		if err := in.Files[i].hash(in.path(in.Files[i].Name)); err != nil {
			return err
		}
	}
	return nil
}
