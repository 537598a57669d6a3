package publish

import (
	"errors"
	"io"
	"io/fs"
	"syscall"
)

// advice returns what to do about an error of the file system, "" when its own
// words must do.
func advice(err error) string {
	for _, known := range []struct {
		err   error
		words string
	}{
		{syscall.ENOSPC, "no room is left there for more bytes, or for more files; make room and do it again"},
		{syscall.EDQUOT, "your share of that disk is used up; make room and do it again"},
		{syscall.EROFS, "nothing can be written there; name another place with --out, or have it mounted for writing"},
		{syscall.ENAMETOOLONG, "name a shorter one with --out"},
		{syscall.ENOTDIR, "a part of that path is a file; name another place with --out"},
		{syscall.EIO, "the disk does not work as it should; name another place with --out, and look after the disk"},
		{syscall.EBUSY, "another program holds it; name another place with --out"},
		{fs.ErrPermission, "you may not write there; name another place with --out, or have the permission given to you"},
	} {
		if errors.Is(err, known.err) {
			return known.words
		}
	}
	return ""
}

func isEnd(err error) bool { return errors.Is(err, io.EOF) }

// writing is advice on an error that only those who write have, so that one
// about an input is not taken for one about the output.
func writing(err error) string {
	for _, only := range []error{syscall.ENOSPC, syscall.EDQUOT, syscall.EROFS} {
		if errors.Is(err, only) {
			return advice(err)
		}
	}
	return ""
}
