package asc

import (
	"bytes"
	"fmt"
	"io"
)

const bufSize = 256 << 10

// maxWord is the longest word taken for a number; the longest number a
// program prints is about 340 characters without an exponent.
const maxWord = 400

// scanner cuts [off, limit) of a file into words.
type scanner struct {
	r        io.ReaderAt
	name     string
	buf      []byte // buf[pos:end] is not yet consumed
	pos, end int
	off      int64 // place in the file of buf[0]
	limit    int64
}

// blank marks what separates words.
var blank = [256]bool{' ': true, '\t': true, '\n': true, '\r': true, '\v': true, '\f': true}

// reset points the scanner at [from, limit) of the file.
func (s *scanner) reset(from, limit int64) {
	s.pos, s.end, s.off, s.limit = 0, 0, from, limit
}

// rewind goes back to a word just read.
func (s *scanner) rewind(at int64) {
	if at >= s.off && at <= s.off+int64(s.end) {
		s.pos = int(at - s.off)
		return
	}
	s.reset(at, s.limit)
}

// fill keeps buf[pos:end], moved to the front, and reads more behind it. It
// reports whether there is more.
func (s *scanner) fill() (bool, error) {
	n := copy(s.buf, s.buf[s.pos:s.end])
	s.off += int64(s.pos)
	s.pos, s.end = 0, n
	want := min(int64(len(s.buf)-n), s.limit-s.off-int64(n))
	if want <= 0 {
		return false, nil
	}
	got, err := s.r.ReadAt(s.buf[n:n+int(want)], s.off+int64(n))
	s.end += got
	if got == 0 && err == io.EOF {
		return false, nil
	}
	if got < int(want) && err != nil && err != io.EOF {
		return false, fmt.Errorf("%s: byte %d: %w", s.name, s.off+int64(s.end), err)
	}
	return got > 0, nil
}

// next returns the next word and its place in the file; the word is empty at
// the end. The bytes are valid until the next call.
func (s *scanner) next() ([]byte, int64, error) {
	for {
		for s.pos < s.end && blank[s.buf[s.pos]] {
			s.pos++
		}
		if s.pos < s.end {
			break
		}
		if more, err := s.fill(); !more || err != nil {
			return nil, s.off, err
		}
	}
	i := s.pos
	for {
		for i < s.end && !blank[s.buf[i]] {
			i++
		}
		if i < s.end {
			break
		}
		if i-s.pos > maxWord {
			return nil, 0, s.errorAt(s.off+int64(s.pos), "a word of more than %d characters; this is not an ASCII grid", maxWord)
		}
		length := i - s.pos
		more, err := s.fill()
		if err != nil {
			return nil, 0, err
		}
		i = s.pos + length
		if !more {
			break
		}
	}
	tok, at := s.buf[s.pos:i], s.off+int64(s.pos)
	s.pos = i
	return tok, at, nil
}

// errorAt returns an error that names the file, line and column of a byte.
func (s *scanner) errorAt(at int64, format string, args ...any) error {
	line, col := s.lineCol(at)
	return fmt.Errorf("%s:%d:%d: "+format, append([]any{s.name, line, col}, args...)...)
}

// lineCol counts lines from the start of the file; only errors pay for it.
func (s *scanner) lineCol(at int64) (line int, col int64) {
	buf := make([]byte, 64<<10)
	line, start := 1, int64(0)
	for off := int64(0); off < at; {
		n, err := s.r.ReadAt(buf[:min(int64(len(buf)), at-off)], off)
		line += bytes.Count(buf[:n], []byte{'\n'})
		if i := bytes.LastIndexByte(buf[:n], '\n'); i >= 0 {
			start = off + int64(i) + 1
		}
		off += int64(n)
		if err != nil || n == 0 {
			break
		}
	}
	return line, at - start + 1
}
