package main

import (
	"compress/gzip"
	"fmt"
	"io"
	"strings"
)

// What a gzipped table may unpack to. The days of the reference stations pack
// to a fifth, a column of one number to a seventieth; only a file made to fill
// a disk or memory packs to a thousandth. Small ones may be as tight as they
// like.
const (
	tightest = 200      // times the bytes of the file
	freely   = 16 << 20 // bytes
)

// unzipped returns the text of a file, which is gzipped when its name says so.
// It ends with an error where the text grows beyond all proportion to the
// file.
func unzipped(r io.Reader, name string) (io.Reader, error) {
	if !strings.HasSuffix(name, ".gz") {
		return r, nil
	}
	u := &unzipping{file: counted{from: r}}
	var err error
	if u.text, err = gzip.NewReader(&u.file); err != nil {
		return nil, fmt.Errorf("%s: %w; the name says it is gzipped", name, err)
	}
	return u, nil
}

// unzipping watches how much text comes out of how much file.
type unzipping struct {
	file counted
	text io.Reader
	out  int64
}

// Read implements io.Reader.
func (u *unzipping) Read(b []byte) (int, error) {
	n, err := u.text.Read(b)
	u.out += int64(n)
	if u.out > freely && u.out/tightest > u.file.n {
		return 0, fmt.Errorf("%d KB of the gzipped file unpack to %d MB, more than %d times as much, as no table does; unpack it by hand and look at it",
			u.file.n>>10, u.out>>20, tightest)
	}
	return n, err
}

// counted counts what is read.
type counted struct {
	from io.Reader
	n    int64
}

// Read implements io.Reader.
func (c *counted) Read(b []byte) (int, error) {
	n, err := c.from.Read(b)
	c.n += int64(n)
	return n, err
}
