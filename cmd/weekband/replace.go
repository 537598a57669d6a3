package main

import (
	"io"

	"weekband/cmd/weekband/internal/publish"
)

// replace writes a single file, so that what stood there stays until the new
// one is whole.
func replace(name string, write func(w io.Writer) error) error { return publish.File(name, write) }
