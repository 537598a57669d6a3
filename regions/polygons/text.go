package polygons

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"weekband/grid/packed"
)

// mostText is how many bytes of JSON a file may hold, unpacked: 1 GiB, ten
// times what all the world's districts take, so that a small packed file
// cannot fill the memory.
const mostText = 1 << 30

// Text reads a JSON file of regions as one document in UTF-8 without a byte
// order mark. It unpacks gzip, decodes UTF-16 and, where bytes are not UTF-8,
// Windows-1252, which Latin-1 is part of, and makes a collection of features
// that follow each other; notes tell of what was not as it should be. name is
// the file's, for messages. The text need not be JSON.
func Text(r io.Reader, name string) (text []byte, notes []string, err error) {
	in := bufio.NewReader(r)
	head, _ := in.Peek(4)
	source := io.Reader(in)
	switch {
	case bytes.HasPrefix(head, []byte("\x1f\x8b")):
		if source, err = packed.NewReader(in); err != nil {
			return nil, nil, fmt.Errorf("%s: begins like gzip, but %w; pack it again", name, err)
		}
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return nil, nil, fmt.Errorf("%s: is a zip archive; unpack it and name the file of polygons in it", name)
	}
	text, err = io.ReadAll(io.LimitReader(source, mostText+1))
	_, trap := errors.AsType[*packed.Trap](err)
	switch {
	case trap:
		return nil, nil, fmt.Errorf("%s: %w; unpack it and name the file itself if that is right", name, err)
	case errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, gzip.ErrChecksum) || errors.Is(err, gzip.ErrHeader):
		return nil, nil, fmt.Errorf("%s: the packed data are cut off or damaged (%w); fetch or pack the file again", name, err)
	case err != nil:
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	case len(text) > mostText:
		return nil, nil, fmt.Errorf("%s: holds more than %d MiB of text; simplify the polygons, or part the file", name, mostText>>20)
	}
	if text, notes, err = decoded(text, name); err != nil || json.Valid(text) {
		return text, notes, err
	}
	if whole, features, ok := collected(text); ok {
		return whole, append(notes, fmt.Sprintf("%s: holds %d features one after the other, which were read as one collection", name, features)), nil
	}
	return text, notes, nil
}

// decoded returns text as UTF-8.
func decoded(text []byte, name string) (utf []byte, notes []string, err error) {
	wide := encoding.Encoding(nil)
	switch {
	case bytes.HasPrefix(text, []byte("\xff\xfe")), bytes.HasPrefix(text, []byte("{\x00")):
		wide = unicode.UTF16(unicode.LittleEndian, unicode.UseBOM)
	case bytes.HasPrefix(text, []byte("\xfe\xff")), bytes.HasPrefix(text, []byte("\x00{")):
		wide = unicode.UTF16(unicode.BigEndian, unicode.UseBOM)
	}
	if wide != nil {
		if text, err = wide.NewDecoder().Bytes(text); err != nil {
			return nil, nil, fmt.Errorf("%s: is not the UTF-16 it begins with: %w; save it as UTF-8", name, err)
		}
		notes = append(notes, fmt.Sprintf("%s: is UTF-16, and was read as that; JSON is UTF-8 (RFC 8259, 8.1)", name))
	}
	text = bytes.TrimPrefix(text, []byte("\xef\xbb\xbf"))
	if utf8.Valid(text) {
		return text, notes, nil
	}
	line, word := firstForeign(text)
	if text, err = charmap.Windows1252.NewDecoder().Bytes(text); err != nil {
		return nil, nil, fmt.Errorf("%s:%d: is not UTF-8: %w; save it as UTF-8", name, line, err)
	}
	return text, append(notes, fmt.Sprintf("%s:%d: is not UTF-8 and was taken for Latin-1 (Windows-1252), as in %q; if that is wrong, save it as UTF-8", name, line, word)), nil
}

// firstForeign returns the line and, read as Windows-1252, the surroundings of
// the first byte that is no UTF-8.
func firstForeign(text []byte) (line int, word string) {
	at := 0
	for at < len(text) {
		r, size := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && size == 1 {
			break
		}
		at += size
	}
	from, to := at, at
	inWord := func(b byte) bool { return b > ' ' && b != '"' }
	for from > 0 && at-from < 20 && inWord(text[from-1]) {
		from--
	}
	for to < len(text) && to-at < 20 && inWord(text[to]) {
		to++
	}
	near, err := charmap.Windows1252.NewDecoder().Bytes(text[from:to])
	if err != nil {
		near = nil
	}
	return bytes.Count(text[:at], []byte("\n")) + 1, string(near)
}
