package geotiff

import (
	"fmt"
	"sync"
)

// spot names one decodable piece of a page.
type spot struct {
	plane      int // band when bands lie apart, else 0
	down, sub  int // row of blocks, piece within the strip
	across     int
	first, end int // rows of the image it holds
}

// piece returns the piece that holds a row, its column of blocks left at 0.
func (p *page) piece(row, plane int) spot {
	s := spot{plane: plane, down: row / p.blockH}
	s.sub = row % p.blockH / p.subH
	s.first = s.down*p.blockH + s.sub*p.subH
	s.end = min(s.first+p.subH, (s.down+1)*p.blockH, p.rows)
	return s
}

// index returns the number of the strip or tile in the page's lists.
func (p *page) index(s spot) int { return (s.plane*p.down+s.down)*p.across + s.across }

// number returns a number for the piece that is unique in the file.
func (p *page) number(s spot) int {
	return p.firstBlock + p.index(s)*p.subs() + s.sub
}

func (p *page) subs() int { return ceilDiv(p.blockH, p.subH) }

// line returns the number of the row of pieces. All bands and pages count
// alike: their pieces in one line are needed together.
func (p *page) line(s spot) int { return s.down*p.subs() + s.sub }

// size returns the decoded bytes of a piece: tiles are padded, strips not.
func (p *page) size(s spot) int64 {
	rows := p.blockH
	if !p.tiled {
		rows = s.end - s.first
	}
	return int64(rows) * int64(p.rowBytes())
}

var packed sync.Pool // of *[]byte

// block returns a decoded piece. Give it back to the cache.
func (f *File) block(p *page, s spot) (*block, error) {
	i := p.index(s)
	off, n := p.offsets[i], p.counts[i]
	size := p.size(s)
	if p.comp == compNone && !p.tiled {
		skip := uint64(s.sub) * uint64(p.subH) * uint64(p.rowBytes())
		if n != 0 && n < skip+uint64(size) {
			return nil, f.blockError(p, s, short(int(min(n, 1<<31)), int(skip)+int(size)))
		}
		if off != 0 {
			off, n = off+skip, uint64(size)
		}
	}
	if off > uint64(f.s.size) || n > uint64(f.s.size)-off {
		return nil, f.blockError(p, s, fmt.Errorf("it lies at bytes %d to %d, but the file has %d bytes; is it cut short?", off, off+n, f.s.size))
	}
	if n > 0 && size > int64(n)*expansion(p.comp)+4096 {
		return nil, f.blockError(p, s, fmt.Errorf("%d bytes cannot decode to %d", n, size))
	}
	b, err := f.cache.acquire(p.number(s), p.line(s), size, func(buf []byte) ([]byte, error) {
		return f.decode(p, buf, int64(off), int64(n))
	})
	if err != nil {
		return nil, f.blockError(p, s, err)
	}
	return b, nil
}

// decode fills buf with little-endian samples; nil for a block that was
// never written, which GDAL calls sparse.
func (f *File) decode(p *page, buf []byte, off, n int64) ([]byte, error) {
	if n == 0 {
		return nil, nil
	}
	if p.comp == compNone {
		if n < int64(len(buf)) {
			return nil, short(int(n), len(buf))
		}
		if _, err := f.s.r.ReadAt(buf, off); err != nil {
			return nil, err
		}
	} else {
		in, ok := packed.Get().(*[]byte)
		if !ok || int64(cap(*in)) < n {
			in = new(make([]byte, n))
		}
		defer packed.Put(in)
		src := (*in)[:n]
		if _, err := f.s.r.ReadAt(src, off); err != nil && !isEnd(err, off+n, f.s.size) {
			return nil, err
		}
		if err := unpack(p.comp, buf, src); err != nil {
			return nil, err
		}
	}
	var tmp []byte
	if p.predictor == 3 {
		row, ok := packed.Get().(*[]byte)
		if !ok || cap(*row) < p.rowBytes() {
			row = new(make([]byte, p.rowBytes()))
		}
		defer packed.Put(row)
		tmp = (*row)[:p.rowBytes()]
	}
	p.settle(buf, f.s.order, tmp)
	return buf, nil
}

func (f *File) blockError(p *page, s spot, err error) error {
	where := fmt.Sprintf("rows %d to %d", s.first, s.end-1)
	if p.tiled {
		left := s.across * p.blockW
		where += fmt.Sprintf(", columns %d to %d", left, min(left+p.blockW, p.cols)-1)
	}
	if p.apart {
		where += fmt.Sprintf(", band %d", s.plane+1)
	}
	return fmt.Errorf("%s: block %d (%s) at byte %d: %w", f.s.name, p.index(s), where, p.offsets[p.index(s)], err)
}
