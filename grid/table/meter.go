package table

import (
	"errors"
	"fmt"
	"io"
)

// Limits of a table, beyond which it is refused before it fills memory.
const (
	mostOfText = 4 << 30   // bytes: the days of 10,000 stations over 30 years are 3.8 GB
	mostOfRow  = 1 << 20   // bytes: a quote that is never closed would take in the whole rest
	mostRows   = 2_000_000 // of a Form that does not say: postal codes and named places of a continent; half a gigabyte of them
)

var errLongRow = errors.New("the next row has more than 1 MB; want shorter rows: is a quote left open?")

// meter gives out no more than so many bytes of a row and of a text.
type meter struct {
	from     io.Reader
	row, all int64 // left
}

// Read implements io.Reader. The row's allowance is renewed by the table, with
// what its buffers hold on top.
func (m *meter) Read(b []byte) (int, error) {
	switch {
	case m.row <= 0:
		return 0, errLongRow
	case m.all <= 0:
		return 0, fmt.Errorf("more than %d GB of text; want less, in several tables", int64(mostOfText)>>30)
	}
	n, err := m.from.Read(b[:min(int64(len(b)), m.row, m.all)])
	m.row -= int64(n)
	m.all -= int64(n)
	return n, err
}
