package geotiff

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"math"
	"slices"

	"github.com/klauspost/compress/zstd"
)

var zstdWriter, _ = zstd.NewWriter(nil, zstd.WithEncoderConcurrency(1)) // nil takes no file: no error

var deflater = zlib.NewWriter(nil)

// plan says how build lays out a test file.
type plan struct {
	order      binary.AppendByteOrder
	big        bool
	kind       sample
	comp       uint16
	predictor  uint16
	apart      bool
	tileW      int // 0: strips
	blockH     int
	rows, cols int
	bands      int
	value      func(band, row, col int) float64
	extra      []entry // further tags; they replace those of the same number
	pages      int     // 0 is 1: equal images
}

// entry is one tag with its bytes already in file order.
type entry struct {
	tag, kind uint16
	count     int
	data      []byte
}

func (p plan) shorts(tag uint16, v ...uint16) entry {
	var b []byte
	for _, x := range v {
		b = p.order.AppendUint16(b, x)
	}
	return entry{tag, 3, len(v), b}
}

func (p plan) longs(tag uint16, v ...int) entry {
	var b []byte
	for _, x := range v {
		b = p.order.AppendUint32(b, uint32(x))
	}
	return entry{tag, 4, len(v), b}
}

func (p plan) doubles(tag uint16, v ...float64) entry {
	var b []byte
	for _, x := range v {
		b = p.order.AppendUint64(b, math.Float64bits(x))
	}
	return entry{tag, 12, len(v), b}
}

func text(tag uint16, s string) entry { return entry{tag, 2, len(s) + 1, append([]byte(s), 0)} }

// build returns the bytes of a file, written without any code of the reader
// or the writer: the slow obvious way.
func (p plan) build() []byte {
	out := []byte("II")
	if p.order.String() == binary.BigEndian.String() {
		out = []byte("MM")
	}
	if p.big {
		out = p.order.AppendUint16(p.order.AppendUint16(p.order.AppendUint16(out, 43), 8), 0)
		out = p.order.AppendUint64(out, 0)
	} else {
		out = p.order.AppendUint32(p.order.AppendUint16(out, 42), 0)
	}
	link := len(out) - 4 // where the place of the next directory goes
	if p.big {
		link = len(out) - 8
	}
	for range max(p.pages, 1) {
		out, link = p.page(out, link)
	}
	return out
}

func (p plan) page(out []byte, link int) ([]byte, int) {
	var offsets, counts []int
	for _, b := range p.blocks() {
		offsets, counts = append(offsets, len(out)), append(counts, len(b))
		out = append(out, b...)
	}
	bits := make([]uint16, p.bands)
	format := make([]uint16, p.bands)
	for i := range bits {
		bits[i] = uint16(8 * p.kind.size())
		format[i] = map[sample]uint16{uint8s: 1, uint16s: 1, uint32s: 1, int8s: 2, int16s: 2, int32s: 2, float32s: 3, float64s: 3}[p.kind]
	}
	planar := uint16(1)
	if p.apart {
		planar = 2
	}
	all := []entry{
		p.longs(256, p.cols), p.longs(257, p.rows), p.shorts(258, bits...), p.shorts(259, p.comp),
		p.shorts(262, 1), p.shorts(277, uint16(p.bands)), p.shorts(284, planar), p.shorts(317, p.predictor), p.shorts(339, format...),
		p.doubles(33550, 0.5, 0.25, 0), p.doubles(33922, 0, 0, 0, -91, 42, 0),
		p.shorts(34735, 1, 1, 0, 3, 1024, 0, 1, 2, 1025, 0, 1, 1, 2048, 0, 1, 4326),
		text(42113, "-9"),
	}
	if p.tileW > 0 {
		all = append(all, p.longs(322, p.tileW), p.longs(323, p.blockH), p.longs(324, offsets...), p.longs(325, counts...))
	} else {
		all = append(all, p.longs(273, offsets...), p.longs(278, p.blockH), p.longs(279, counts...))
	}
	for _, e := range p.extra {
		all = slices.DeleteFunc(all, func(o entry) bool { return o.tag == e.tag })
		if e.count >= 0 {
			all = append(all, e)
		}
	}
	slices.SortFunc(all, func(a, b entry) int { return int(a.tag) - int(b.tag) })
	return p.directory(out, link, all)
}

func (p plan) directory(out []byte, link int, all []entry) ([]byte, int) {
	inline := 4
	if p.big {
		inline = 8
	}
	for i, e := range all {
		if len(e.data) > inline {
			at := len(out)
			out = append(out, e.data...)
			if p.big {
				all[i].data = p.order.AppendUint64(nil, uint64(at))
			} else {
				all[i].data = p.order.AppendUint32(nil, uint32(at))
			}
		}
	}
	put := func(at int, v int) {
		if p.big {
			copy(out[at:], p.order.AppendUint64(nil, uint64(v)))
		} else {
			copy(out[at:], p.order.AppendUint32(nil, uint32(v)))
		}
	}
	put(link, len(out))
	if p.big {
		out = p.order.AppendUint64(out, uint64(len(all)))
	} else {
		out = p.order.AppendUint16(out, uint16(len(all)))
	}
	for _, e := range all {
		out = p.order.AppendUint16(p.order.AppendUint16(out, e.tag), e.kind)
		if p.big {
			out = p.order.AppendUint64(out, uint64(e.count))
		} else {
			out = p.order.AppendUint32(out, uint32(e.count))
		}
		out = append(out, append(bytes.Clone(e.data), make([]byte, inline)...)[:inline]...)
	}
	return append(out, make([]byte, inline)...), len(out)
}

// blocks returns the encoded strips or tiles in order.
func (p plan) blocks() (out [][]byte) {
	planes, inBlock := 1, p.bands
	if p.apart {
		planes, inBlock = p.bands, 1
	}
	w := p.tileW
	if w == 0 {
		w = p.cols
	}
	for plane := range planes {
		for top := 0; top < p.rows; top += p.blockH {
			for left := 0; left < p.cols; left += w {
				h := p.blockH
				if p.tileW == 0 {
					h = min(h, p.rows-top)
				}
				var b []byte
				for row := top; row < top+h; row++ {
					b = append(b, p.row(plane, inBlock, row, left, w)...)
				}
				out = append(out, pack(p.comp, b))
			}
		}
	}
	return out
}

// row returns one row of a block with its predictor applied. Cells beyond
// the image hold 77.
func (p plan) row(plane, inBlock, row, left, w int) []byte {
	var bits []uint64 // samples
	for col := left; col < left+w; col++ {
		for i := range inBlock {
			v := 77.0
			if row < p.rows && col < p.cols {
				v = p.value(plane+i, row, col)
			}
			bits = append(bits, p.bits(v))
		}
	}
	size := p.kind.size()
	if p.predictor == 2 {
		for i := len(bits) - 1; i >= inBlock; i-- {
			bits[i] -= bits[i-inBlock]
		}
	}
	var b []byte
	if p.predictor == 3 {
		for k := range size {
			for _, v := range bits {
				b = append(b, byte(v>>(8*(size-1-k))))
			}
		}
		for i := len(b) - 1; i >= inBlock; i-- {
			b[i] -= b[i-inBlock]
		}
		return b
	}
	for _, v := range bits {
		switch size {
		case 1:
			b = append(b, byte(v))
		case 2:
			b = p.order.AppendUint16(b, uint16(v))
		case 4:
			b = p.order.AppendUint32(b, uint32(v))
		case 8:
			b = p.order.AppendUint64(b, v)
		}
	}
	return b
}

func (p plan) bits(v float64) uint64 {
	switch p.kind {
	case float32s:
		return uint64(math.Float32bits(float32(v)))
	case float64s:
		return math.Float64bits(v)
	}
	return uint64(int64(v))
}

// pack compresses a block.
func pack(comp uint16, b []byte) []byte {
	var out bytes.Buffer
	switch comp {
	case compDeflate, compDeflateOld:
		deflater.Reset(&out)
		deflater.Write(b)
		deflater.Close()
	case compZstd:
		return zstdWriter.EncodeAll(b, nil)
	case compPackBits:
		for len(b) > 0 {
			n := min(len(b), 128)
			run := 1
			for run < n && b[run] == b[0] {
				run++
			}
			if run > 2 {
				out.Write([]byte{byte(1 - run), b[0]})
				b = b[run:]
				continue
			}
			n = min(n, 5)
			out.WriteByte(byte(n - 1))
			out.Write(b[:n])
			b = b[n:]
		}
	case compLZW:
		return packLZW(b)
	default:
		return b
	}
	return out.Bytes()
}

// packLZW writes codes of 9 bits only: a clear code before the table would
// need 10.
func packLZW(b []byte) (out []byte) {
	acc, n := uint32(0), 0
	put := func(code uint32) {
		acc, n = acc<<9|code, n+9
		for n >= 8 {
			out = append(out, byte(acc>>(n-8)))
			n -= 8
		}
	}
	for i, c := range b {
		if i%200 == 0 {
			put(256)
		}
		put(uint32(c))
	}
	put(257)
	if n > 0 {
		out = append(out, byte(acc<<(8-n)))
	}
	return out
}
