package plain

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"unicode/utf8"
)

// Reader gives text as UTF-8 whose lines end in line feeds.
type Reader struct {
	from     io.Reader // UTF-8 or what claims to be
	encoding string    // what it was, for Notes; "" for UTF-8 without a mark
	buf      []byte    // read but not given out: buf[pos:]
	pos      int
	rest     []byte // of a chunk, a character that is cut in two
	skip     bool   // the last byte was a carriage return
	err      error  // after buf

	line  int   // of the next byte to come into buf
	begin int64 // place where that line begins, in bytes from the first
	at    int64 // place of the next byte
	pairs int   // lines that ended in CR LF
	lone  int   // in CR alone
}

// Error is a place in a text that cannot be read. Line and Col count from 1,
// columns in bytes of UTF-8.
type Error struct {
	Line, Col int
	Text      string
}

// Error returns the words without the place.
func (e *Error) Error() string { return e.Text }

const chunk = 64 << 10

// NewReader returns the plain text of r. Its encoding is told by a byte order
// mark (UTF-8, UTF-16); without one it is UTF-8. Reading gives an *Error at a
// byte that is no UTF-8, a half of a pair of UTF-16, or a NUL.
func NewReader(r io.Reader) *Reader {
	in := bufio.NewReaderSize(r, chunk)
	p := &Reader{from: in, line: 1}
	head, _ := in.Peek(3) // a shorter file has no mark of three bytes; an error comes again
	switch {
	case bytes.HasPrefix(head, []byte("\xef\xbb\xbf")):
		p.encoding = "UTF-8"
		in.Discard(3) // was peeked
	case bytes.HasPrefix(head, []byte("\xff\xfe")), bytes.HasPrefix(head, []byte("\xfe\xff")):
		p.encoding = "UTF-16"
		in.Discard(2)
		p.from = &utf16Reader{from: in, big: head[0] == 0xfe}
	}
	return p
}

// Read implements io.Reader.
func (p *Reader) Read(b []byte) (int, error) {
	for p.pos == len(p.buf) {
		if p.err != nil {
			return 0, p.err
		}
		p.fill()
	}
	n := copy(b, p.buf[p.pos:])
	p.pos += n
	return n, nil
}

// fill reads the next chunk; what comes before a byte that cannot be read is
// given out first.
func (p *Reader) fill() {
	if cap(p.buf) < chunk+utf8.UTFMax {
		p.buf = make([]byte, 0, chunk+utf8.UTFMax)
	}
	p.pos = 0
	p.buf = append(p.buf[:0], p.rest...)
	n, err := p.from.Read(p.buf[len(p.buf) : len(p.buf)+chunk])
	p.buf, p.rest, p.err = p.buf[:len(p.buf)+n], p.rest[:0], err
	bad := wrong(p.buf)
	if err == nil && bad < len(p.buf) && p.buf[bad] != 0 && !utf8.FullRune(p.buf[bad:]) {
		p.rest = append(p.rest, p.buf[bad:]...)
		p.buf = p.buf[:bad]
	}
	if bad == len(p.buf) {
		p.lines()
		return
	}
	c := p.buf[bad]
	p.buf = p.buf[:bad]
	p.lines()
	p.err = p.refusal(c)
}

// wrong returns the place of the first byte that is NUL or no UTF-8, len(b)
// without any.
func wrong(b []byte) int {
	end := len(b)
	if i := bytes.IndexByte(b, 0); i >= 0 {
		end = i
	}
	if utf8.Valid(b[:end]) {
		return end
	}
	for i := 0; i < end; {
		r, size := utf8.DecodeRune(b[i:end])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return end
}

// refusal returns the error for the next byte.
func (p *Reader) refusal(c byte) *Error {
	e := &Error{Line: p.line, Col: int(p.at-p.begin) + 1}
	switch {
	case c == 0:
		e.Text = "a NUL byte; want text: this is a file of another kind, or UTF-16 without its mark; save it as UTF-8"
	case p.encoding == "UTF-16":
		e.Text = "half a character of UTF-16; is the file cut short? save it as UTF-8"
	case c < 0xa0: // a control in Latin-1
		e.Text = fmt.Sprintf("the byte %#x is not UTF-8; want text: is this a file of another kind? if it is text, save it as UTF-8", c)
	default:
		e.Text = fmt.Sprintf("the byte %#x is not UTF-8 (in Latin-1 it would be %q), and which other encoding is meant cannot be told; save the file as UTF-8", c, rune(c))
	}
	return e
}

// lines makes line feeds of carriage returns and counts lines.
func (p *Reader) lines() {
	p.at += int64(len(p.buf))
	if !p.skip && bytes.IndexByte(p.buf, '\r') < 0 {
		p.line += bytes.Count(p.buf, []byte{'\n'})
		if i := bytes.LastIndexByte(p.buf, '\n'); i >= 0 {
			p.begin = p.at - int64(len(p.buf)-i-1)
		}
		return
	}
	first := p.at - int64(len(p.buf))
	out := p.buf[:0]
	for i, c := range p.buf {
		if p.skip {
			p.skip = false
			if c == '\n' {
				p.pairs++
				p.begin = first + int64(i) + 1
				continue
			}
			p.lone++
		}
		if c == '\r' {
			p.skip = true
			c = '\n'
		}
		if c == '\n' {
			p.line++
			p.begin = first + int64(i) + 1
		}
		out = append(out, c)
	}
	p.buf = out
}

// Notes says what was changed so far, a few words each.
func (p *Reader) Notes() []string {
	var out []string
	switch p.encoding {
	case "UTF-8":
		out = append(out, "left out the byte order mark at its beginning")
	case "UTF-16":
		out = append(out, "read it as UTF-16, as its byte order mark says")
	}
	lone := p.lone
	if p.skip && p.err != nil {
		lone++ // the last byte of all
	}
	switch {
	case lone > 0 && p.pairs > 0:
		out = append(out, "took CR, and CR LF, for the ends of lines")
	case lone > 0:
		out = append(out, "took CR for the ends of lines")
	case p.pairs > 0:
		out = append(out, "took CR LF for the ends of lines")
	}
	return out
}
