package publish

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"runtime"
	"sync"
	"syscall"
)

// atOnce is how many files the disk is asked for at a time: it takes many
// in about the time of one.
const atOnce = 16

// flush sees to it that every file and folder under root is on the disk.
func flush(ctx context.Context, root *os.Root) error {
	var names []string
	err := fs.WalkDir(root.FS(), ".", func(name string, _ fs.DirEntry, err error) error {
		names = append(names, name)
		return err
	})
	if err != nil {
		return err
	}
	errs := make([]error, len(names))
	next := make(chan int)
	var workers sync.WaitGroup
	for range atOnce {
		workers.Go(func() {
			for i := range next {
				errs[i] = flushOne(root, names[i])
			}
		})
	}
	for i := range names {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	workers.Wait()
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return ctx.Err()
}

// flushOne waits until a file, or the names in a folder, are on the disk.
func flushOne(root *os.Root, name string) error {
	f, err := root.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	err = f.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) || runtime.GOOS == "windows" {
		return nil // this file system, or system, cannot be asked so
	}
	return err
}
