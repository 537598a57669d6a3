package geotiff

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
)

// Begins reports whether a file that begins so is a TIFF: classic or BigTIFF, of
// either byte order.
func Begins(head []byte) bool {
	for _, magic := range []string{"II*\x00", "MM\x00*", "II+\x00", "MM\x00+"} {
		if bytes.HasPrefix(head, []byte(magic)) {
			return true
		}
	}
	return false
}

// typeSize is the number of bytes of each field type; 0 is no type.
var typeSize = [19]int64{1: 1, 2: 1, 3: 2, 4: 4, 5: 8, 6: 1, 7: 1, 8: 2, 9: 4, 10: 8, 11: 4, 12: 8, 13: 4, 16: 8, 17: 8, 18: 8}

// field is one entry of a directory. Its bytes lie at [at, at+n) of the file.
type field struct {
	kind  uint16
	count int64
	at, n int64
}

// directory is one image file directory.
type directory struct {
	at     int64
	fields map[uint16]field
}

// stream reads the structures of one file and bounds every read by its size.
type stream struct {
	r     io.ReaderAt
	size  int64
	name  string
	order binary.ByteOrder
	big   bool
}

// bytes returns n bytes at a place, an error if they are not in the file.
func (s *stream) bytes(at, n int64, what string) ([]byte, error) {
	if at < 0 || n < 0 || at > s.size-n {
		return nil, fmt.Errorf("%s: %s lies at bytes %d to %d, but the file has %d bytes; is it cut short?", s.name, what, at, uint64(at)+uint64(n), s.size)
	}
	b := make([]byte, n)
	if _, err := s.r.ReadAt(b, at); err != nil && err != io.EOF {
		return nil, fmt.Errorf("%s: %s at byte %d: %w", s.name, what, at, err)
	}
	return b, nil
}

// maxDirectories bounds the pages of a stack: 365 days with overviews and
// masks stay far below it.
const maxDirectories = 4096

// openStream reads the file header and all directories.
func openStream(r io.ReaderAt, size int64, name string) (*stream, []directory, error) {
	s := &stream{r: r, size: size, name: name}
	head, err := s.bytes(0, min(16, size), "the header")
	if err != nil {
		return nil, nil, err
	}
	at, err := s.header(head)
	if err != nil {
		return nil, nil, err
	}
	var dirs []directory
	seen := map[int64]bool{}
	for at != 0 {
		if seen[at] {
			return nil, nil, fmt.Errorf("%s: the chain of directories comes back to byte %d", name, at)
		}
		if len(dirs) == maxDirectories {
			return nil, nil, fmt.Errorf("%s: more than %d directories", name, maxDirectories)
		}
		seen[at] = true
		var d directory
		if d, at, err = s.directory(at); err != nil {
			return nil, nil, err
		}
		dirs = append(dirs, d)
	}
	if len(dirs) == 0 {
		return nil, nil, fmt.Errorf("%s: no image in the file", name)
	}
	return s, dirs, nil
}

// header sets byte order and kind, and returns the first directory's place.
func (s *stream) header(b []byte) (int64, error) {
	wrong := fmt.Errorf("%s: not a TIFF file: it begins with % x", s.name, b[:min(4, len(b))])
	if len(b) < 8 {
		return 0, wrong
	}
	switch string(b[:2]) {
	case "II":
		s.order = binary.LittleEndian
	case "MM":
		s.order = binary.BigEndian
	default:
		return 0, wrong
	}
	switch version := s.order.Uint16(b[2:]); {
	case version == 42:
		return int64(s.order.Uint32(b[4:])), nil
	case version == 43 && len(b) == 16 && s.order.Uint16(b[4:]) == 8:
		s.big = true
		return int64(s.order.Uint64(b[8:])), nil
	default:
		return 0, fmt.Errorf("%s: TIFF version %d; want 42 (TIFF) or 43 (BigTIFF)", s.name, version)
	}
}

// directory reads the directory at a place and returns the next one's place.
func (s *stream) directory(at int64) (directory, int64, error) {
	d := directory{at: at, fields: map[uint16]field{}}
	countSize, entrySize, nextSize := int64(2), int64(12), int64(4)
	if s.big {
		countSize, entrySize, nextSize = 8, 20, 8
	}
	b, err := s.bytes(at, countSize, "a directory")
	if err != nil {
		return d, 0, err
	}
	n := s.uint(b)
	if n > 1<<16 {
		return d, 0, fmt.Errorf("%s: byte %d: a directory of %d entries", s.name, at, n)
	}
	if b, err = s.bytes(at+countSize, int64(n)*entrySize+nextSize, "a directory"); err != nil {
		return d, 0, err
	}
	for i := range int64(n) {
		tag, f, err := s.entry(b[i*entrySize:], at+countSize+i*entrySize)
		if err != nil {
			return d, 0, err
		}
		if _, twice := d.fields[tag]; !twice && f.n >= 0 {
			d.fields[tag] = f
		}
	}
	return d, int64(s.uint(b[int64(n)*entrySize:][:nextSize])), nil
}

// entry reads one entry, which stands at a place of the file. Types that are
// not known give a field of −1 bytes: TIFF 6.0 asks to skip them.
func (s *stream) entry(b []byte, at int64) (uint16, field, error) {
	tag, f := s.order.Uint16(b), field{kind: s.order.Uint16(b[2:])}
	inline, head := int64(4), int64(8)
	count := uint64(s.order.Uint32(b[4:]))
	if s.big {
		inline, head = 8, 12
		count = s.order.Uint64(b[4:])
	}
	if int(f.kind) >= len(typeSize) || typeSize[f.kind] == 0 {
		f.n = -1
		return tag, f, nil
	}
	if count > uint64(s.size) {
		return tag, f, fmt.Errorf("%s: byte %d: tag %d claims %d values; the file has only %d bytes", s.name, at, tag, count, s.size)
	}
	f.count = int64(count)
	f.n = f.count * typeSize[f.kind]
	f.at = at + head
	if f.n > inline {
		f.at = int64(s.uint(b[head:][:inline]))
	}
	if f.at < 0 || f.at > s.size-f.n {
		return tag, f, fmt.Errorf("%s: byte %d: tag %d points to bytes %d to %d, but the file has %d bytes; is it cut short?", s.name, at, tag, uint64(f.at), uint64(f.at)+uint64(f.n), s.size)
	}
	return tag, f, nil
}
