package packed

import (
	"compress/gzip"
	"fmt"
	"io"
)

// What packed bytes may unpack to. The days of reference stations pack to a
// fifth, positions to a tenth, a column of one number to a seventieth; only a
// file made to fill a disk or memory packs to a thousandth. Small ones may be as
// tight as they like.
const (
	Most   = 200      // times the packed bytes
	Freely = 16 << 20 // bytes
)

// Trap is the error for text that outgrows its packed bytes.
type Trap struct{ Packed, Text int64 } // bytes so far

// Error tells both sizes.
func (t *Trap) Error() string {
	return fmt.Sprintf("%d KB of gzip unpack to %d MB, more than %d times as much", t.Packed>>10, t.Text>>20, Most)
}

// Reader unpacks. It reads ahead of the text, so a Trap comes a little late.
type Reader struct {
	text   *gzip.Reader
	packed counter
	n      int64
}

// NewReader returns the text of packed bytes. It returns the errors of
// compress/gzip when they do not begin like gzip.
func NewReader(r io.Reader) (*Reader, error) {
	u := &Reader{packed: counter{from: r}}
	var err error
	u.text, err = gzip.NewReader(&u.packed)
	return u, err
}

// Read implements io.Reader. Its errors are those of compress/gzip and *Trap.
func (u *Reader) Read(b []byte) (int, error) {
	n, err := u.text.Read(b)
	if u.n += int64(n); u.n > Freely && u.n/Most > u.packed.n {
		return 0, &Trap{Packed: u.packed.n, Text: u.n}
	}
	return n, err
}

// counter counts what is read through it.
type counter struct {
	from io.Reader
	n    int64
}

// Read implements io.Reader.
func (c *counter) Read(b []byte) (int, error) {
	n, err := c.from.Read(b)
	c.n += int64(n)
	return n, err
}
