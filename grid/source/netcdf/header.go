package netcdf

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
)

// External types by number; those from ubyte on belong to CDF-5.
type typ uint32

const (
	typByte typ = iota + 1
	typChar
	typShort
	typInt
	typFloat
	typDouble
	typUbyte
	typUshort
	typUint
	typInt64
	typUint64
)

func (t typ) size() int64 {
	if t < typByte || t > typUint64 {
		return 0
	}
	return [...]int64{typByte: 1, typChar: 1, typShort: 2, typInt: 4, typFloat: 4, typDouble: 8,
		typUbyte: 1, typUshort: 2, typUint: 4, typInt64: 8, typUint64: 8}[t]
}

func (t typ) String() string {
	return [...]string{"none", "byte", "char", "short", "int", "float", "double", "ubyte", "ushort", "uint", "int64", "uint64"}[t]
}

type dimension struct {
	name   string
	length int64 // of the record dimension: the number of records
	record bool
}

// attribute holds text or numbers.
type attribute struct {
	typ  typ
	text string
	nums []float64
}

type variable struct {
	name   string
	dims   []int // numbers of dimensions, slowest first
	attrs  map[string]attribute
	typ    typ
	begin  int64
	record bool
	vsize  int64 // bytes of the variable, or of one record of it, unpadded
}

// header is the parsed beginning of a file.
type header struct {
	version    byte
	dims       []dimension
	vars       []variable
	recordSize int64 // bytes from one record to the next
}

// Begins reports whether a file that begins so is NetCDF: classic, or NetCDF-4,
// which Open refuses by an *HDF5Error.
func Begins(head []byte) bool {
	return bytes.HasPrefix(head, []byte("CDF")) || bytes.HasPrefix(head, []byte("\x89HDF"))
}

// HDF5Error says that a file is NetCDF-4, which is HDF5 inside.
type HDF5Error struct{ Name string }

// Error says what to do about it.
func (e *HDF5Error) Error() string {
	return e.Name + ": this is NetCDF-4 (HDF5), which is not read directly; convert it with nccopy -k classic IN OUT"
}

// parser reads the header with every read bounded by the size of the file.
type parser struct {
	r    io.ReaderAt
	name string
	size int64
	at   int64
	buf  []byte // bytes of the file from bufAt
	off  int64
	wide bool // CDF-5: counts of 8 bytes
	far  bool // CDF-2 and 5: offsets of 8 bytes
	err  error
}

const parseChunk = 64 << 10

// take returns the next n bytes; after an error, zeros.
func (p *parser) take(n int64, what string) []byte {
	if p.err == nil && (n < 0 || n > p.size-p.at) {
		p.err = fmt.Errorf("%s: %s at byte %d needs %d bytes, but the file has %d; is it cut short?", p.name, what, p.at, n, p.size)
	}
	if p.err != nil {
		return make([]byte, min(max(n, 0), 8))
	}
	if p.at < p.off || p.at+n > p.off+int64(len(p.buf)) {
		p.buf = make([]byte, min(max(n, parseChunk), p.size-p.at))
		p.off = p.at
		if _, err := p.r.ReadAt(p.buf, p.at); err != nil && !errors.Is(err, io.EOF) {
			p.err = fmt.Errorf("%s: %s at byte %d: %w", p.name, what, p.at, err)
		}
	}
	b := p.buf[p.at-p.off:][:n]
	p.at += n
	return b
}

func (p *parser) u32(what string) uint32 { return binary.BigEndian.Uint32(p.take(4, what)) }

// count reads a non-negative number of 4 or, in CDF-5, 8 bytes.
func (p *parser) count(what string) int64 {
	if !p.wide {
		return int64(p.u32(what))
	}
	v := binary.BigEndian.Uint64(p.take(8, what))
	if v > math.MaxInt64 {
		p.fail("%s is %d", what, v)
		return 0
	}
	return int64(v)
}

func (p *parser) fail(format string, args ...any) {
	if p.err == nil {
		p.err = fmt.Errorf("%s: byte %d: "+format, append([]any{p.name, p.at}, args...)...)
	}
}

// list reads the tag and length of a list whose elements take at least least
// bytes each.
func (p *parser) list(tag uint32, least int64, what string) int64 {
	got, n := p.u32(what), p.count(what)
	if got == 0 && n == 0 {
		return 0
	}
	if got != tag {
		p.fail("%s begin with tag %d; want %d: the header is damaged", what, got, tag)
	}
	if n > (p.size-p.at)/least {
		p.fail("%d %s do not fit into the rest of the file", n, what)
	}
	if p.err != nil {
		return 0
	}
	return n
}

func (p *parser) text(what string) string {
	n := p.count(what)
	if p.err != nil {
		return ""
	}
	s := string(p.take(n, what))
	p.take(-n&3, what) // names are padded to 4 bytes
	if p.err != nil {
		return ""
	}
	return s
}

// parse reads the whole header.
func parse(r io.ReaderAt, size int64, name string) (*header, error) {
	p := &parser{r: r, size: size, name: name}
	magic := p.take(min(4, size), "the first bytes")
	if string(magic) == "\x89HDF" {
		return nil, &HDF5Error{Name: name}
	}
	if len(magic) < 4 || string(magic[:3]) != "CDF" || magic[3] != 1 && magic[3] != 2 && magic[3] != 5 {
		return nil, fmt.Errorf("%s: not a NetCDF classic file: it begins with % x; want CDF and 1, 2 or 5", name, magic)
	}
	h := &header{version: magic[3]}
	p.wide, p.far = magic[3] == 5, magic[3] != 1
	records := p.records()
	for range p.list(10, 8, "dimensions") {
		d := dimension{name: p.text("a dimension's name"), length: p.count("a dimension's length")}
		if d.record = d.length == 0; d.record {
			d.length = records
		}
		h.dims = append(h.dims, d)
	}
	p.attributes() // of the file
	for range p.list(11, 24, "variables") {
		v := p.variable(h)
		if p.err != nil {
			break
		}
		h.vars = append(h.vars, v)
	}
	if p.err != nil {
		return nil, p.err
	}
	return h, h.setRecords(name, size, records)
}

// records reads the number of records; −1 when the writer left it open.
func (p *parser) records() int64 {
	if p.wide {
		v := binary.BigEndian.Uint64(p.take(8, "the number of records"))
		if v > math.MaxInt64 {
			return -1
		}
		return int64(v)
	}
	v := p.u32("the number of records")
	if v == math.MaxUint32 { // STREAMING
		return -1
	}
	return int64(v)
}
