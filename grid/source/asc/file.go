package asc

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"sync"

	"weekband/grid/source/frame"
)

// File is an open ASCII grid. Its methods may be called from several
// goroutines.
type File struct {
	r       io.ReaderAt
	size    int64
	name    string
	frame   frame.Frame
	nodata  float32
	nodText string
	every   int     // rows between two entries of starts
	starts  []int64 // place in the file of the first value of every such row
	pool    sync.Pool
}

// maxStarts bounds the row index to 8 MB.
const maxStarts = 1 << 20

// Open reads the header of a file of the given size and counts its values.
// It returns an error that names the file and, where there is one, the line
// and column when the header is incomplete or wrong, or the file holds fewer
// or more values than rows × columns.
func Open(r io.ReaderAt, size int64, name string) (*File, error) {
	f := &File{r: r, size: size, name: name}
	f.pool.New = func() any { return &scanner{r: r, name: name, buf: make([]byte, bufSize)} }
	s := f.pool.Get().(*scanner)
	defer f.pool.Put(s)
	s.reset(0, size)
	h, err := readHeader(s)
	if err != nil {
		return nil, err
	}
	if f.frame, err = h.frame(); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	f.setNoData(h.nodata)
	return f, f.index(s)
}

func (f *File) setNoData(text string) {
	f.nodText, f.nodata = text, defaultNoData
	if text == "" {
		f.nodText = "-9999 (by default)"
	} else if isNaN([]byte(text)) {
		f.nodata = float32(math.NaN())
	} else {
		f.nodata, _ = parse([]byte(text))
	}
}

// index notes where rows begin and checks the number of values.
func (f *File) index(s *scanner) error {
	cells := int64(f.frame.Rows) * int64(f.frame.Cols) // both below 2^31
	begin := s.off + int64(s.pos)
	if cells > (f.size-begin+1)/2 { // a digit and a blank each
		return fmt.Errorf("%s: %d bytes of values cannot hold %d rows × %d columns; is the file cut short?",
			f.name, f.size-begin, f.frame.Rows, f.frame.Cols)
	}
	f.every = 1 + f.frame.Rows/maxStarts
	step := int64(f.every) * int64(f.frame.Cols)
	f.starts = make([]int64, 0, f.frame.Rows/f.every+1)
	count, next, inWord := int64(0), int64(0), false
	for {
		for i := s.pos; i < s.end; i++ {
			if blank[s.buf[i]] {
				inWord = false
				continue
			}
			if inWord {
				continue
			}
			inWord = true
			if count == next && count < cells {
				f.starts = append(f.starts, s.off+int64(i))
				next += step
			}
			if count == cells {
				return s.errorAt(s.off+int64(i), "a value after the last of %d rows × %d columns; do ncols and nrows fit the file?", f.frame.Rows, f.frame.Cols)
			}
			count++
		}
		s.pos = s.end
		more, err := s.fill()
		if err != nil {
			return err
		}
		if !more {
			break
		}
	}
	if count < cells {
		return s.errorAt(f.size, "the file ends after %d values, in row %d; %d rows × %d columns need %d: is it cut short?",
			count, count/int64(f.frame.Cols), f.frame.Rows, f.frame.Cols, cells)
	}
	return nil
}

// Frame returns where the cells lie. The first row is the northernmost.
func (f *File) Frame() frame.Frame { return f.frame }

// Count returns the number of layers, 1.
func (f *File) Count() int { return 1 }

// NoData returns the text of the value for missing cells.
func (f *File) NoData() string { return f.nodText }

// Read fills vals and has, each rows × columns long, with rows
// [first, first+rows), which must be rows of the file. has is false where
// the file holds its nodata value or "nan". It returns an error with line
// and column when a word is not a number.
func (f *File) Read(layer, first, rows int, vals []float32, has []bool) error {
	if layer != 0 || first < 0 || rows < 1 || first > f.frame.Rows-rows {
		return fmt.Errorf("%s: layer %d, rows %d to %d were asked for; it has layer 0, rows 0 to %d", f.name, layer, first, first+rows-1, f.frame.Rows-1)
	}
	s := f.pool.Get().(*scanner)
	defer f.pool.Put(s)
	limit := f.size
	if end := (first + rows + f.every - 1) / f.every; end < len(f.starts) {
		limit = f.starts[end]
	}
	s.reset(f.starts[first/f.every], limit)
	for range first % f.every * f.frame.Cols {
		if _, _, err := s.next(); err != nil {
			return err
		}
	}
	n := rows * f.frame.Cols
	return f.values(s, vals[:n], has[:n])
}

// commaHint says what to do about a decimal comma.
func commaHint(tok []byte) string {
	if bytes.Count(tok, []byte{','}) == 1 {
		return ", with a decimal point: save the file without the commas of a language"
	}
	return ""
}

func (f *File) values(s *scanner, vals []float32, has []bool) error {
	for i := range vals {
		tok, at, err := s.next()
		if err != nil {
			return err
		}
		v, ok := parse(tok)
		if !ok && !isNaN(tok) {
			return s.errorAt(at, "%q is not a number; want one such as -12.5%s", tok, commaHint(tok))
		}
		has[i] = ok && v != f.nodata
		if has[i] && math.IsInf(float64(v), 0) {
			return s.errorAt(at, "%s is too large; want a number, or the nodata value of the header where there is none", tok)
		}
		vals[i] = v
		if !has[i] {
			vals[i] = 0
		}
	}
	return nil
}
