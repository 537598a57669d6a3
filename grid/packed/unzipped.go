package packed

import (
	"errors"
	"fmt"
	"io"
	"strings"
)

// Unzipped returns the text of a file, which is gzipped when its name says so.
// It ends with an error where the text grows beyond all proportion to the
// file.
func Unzipped(r io.Reader, name string) (io.Reader, error) {
	if !strings.HasSuffix(name, ".gz") {
		return r, nil
	}
	text, err := NewReader(r)
	if err != nil {
		return nil, fmt.Errorf("%s: %w; the name says it is gzipped", name, err)
	}
	return advised{text}, nil
}

// advised says of a trap what to do.
type advised struct{ from io.Reader }

// Read implements io.Reader.
func (a advised) Read(b []byte) (int, error) {
	n, err := a.from.Read(b)
	if _, trap := errors.AsType[*Trap](err); trap {
		err = fmt.Errorf("%w, as no table does; unpack it by hand and look at it", err)
	}
	return n, err
}
