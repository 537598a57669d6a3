package geotiff

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/klauspost/compress/zlib"

	"weekband/grid"
)

// NoData is the number that written files hold where a cell has no value.
const NoData = -9999

// Storage is how a written file stores its numbers.
type Storage uint8

const (
	Float32 Storage = iota // as they are
	Int16                  // as whole numbers: value = number × Scale + Offset
)

// WriteOptions set how a file is written. The zero value writes float32
// without descriptions.
type WriteOptions struct {
	Store       Storage
	Scale       float64  // Int16 only: what one step is worth; 0 is 1
	Offset      float64  // Int16 only
	Names       []string // descriptions of the layers, in order; may be short
	Unit        string   // of all layers, such as "day"; "" writes none
	Description string   // of the file; ASCII; "" writes none
	Big         bool     // BigTIFF even when the numbers take less than 4 GB
}

// stripBytes is about how much of the raster one strip holds before
// compression: large enough to compress well, small enough to read one row
// for little.
const stripBytes = 128 << 10

// classicBytes is what the numbers of a file may take uncompressed that is
// written as classic TIFF, whose places have 32 bits: the rest of them is for
// the directory, and for numbers that deflate cannot make smaller.
const classicBytes = math.MaxUint32 - 64<<20

// Writer writes a GeoTIFF strip by strip: EPSG:4326, deflate, the predictor
// that fits the storage, layers apart, nodata −9999; BigTIFF when the numbers
// take about 4 GB or more before compression. It holds one strip of each
// layer. The bytes depend on the grid, options, values and the order of
// the calls only.
type Writer struct {
	out    *patcher
	grid   grid.Grid
	opts   WriteOptions
	big    bool
	strip  int // rows of a strip
	layers []layerWriter
	packed bytes.Buffer
	z      *zlib.Writer
	err    error
}

type layerWriter struct {
	rows    int // so far
	pending []byte
	offsets []uint64
	counts  []uint64
}

// NewWriter begins a file of the given number of layers on g. A file that
// cannot be sought in, such as a pipe, is held in memory, compressed, until
// Close. It returns an error when the grid is empty or the options are not
// usable.
func NewWriter(w io.Writer, g grid.Grid, layers int, opts WriteOptions) (*Writer, error) {
	if g.Rows() == 0 || layers < 1 || layers > 65535 {
		return nil, fmt.Errorf("geotiff: %d rows and %d layers cannot be written", g.Rows(), layers)
	}
	if opts.Scale == 0 {
		opts.Scale = 1
	}
	if math.IsNaN(opts.Scale) || math.IsInf(opts.Scale, 0) || math.IsNaN(opts.Offset) || math.IsInf(opts.Offset, 0) {
		return nil, fmt.Errorf("geotiff: scale %g and offset %g; want finite numbers", opts.Scale, opts.Offset)
	}
	if opts.Store == Float32 && (opts.Scale != 1 || opts.Offset != 0) {
		return nil, errors.New("geotiff: a scale or an offset goes with int16 storage only")
	}
	out := &Writer{out: newPatcher(w), grid: g, opts: opts, layers: make([]layerWriter, layers)}
	out.strip = min(g.Rows(), max(1, stripBytes/(g.Cols()*out.size())))
	out.z = zlib.NewWriter(&out.packed)
	out.big = opts.Big || int64(g.Cells())*int64(layers)*int64(out.size()) > classicBytes
	return out, out.out.write(make([]byte, len(out.header(0)))) // the header follows on Close
}

func (w *Writer) size() int {
	if w.opts.Store == Int16 {
		return 2
	}
	return 4
}

// WriteRows appends rows to a layer, from the north; vals and has hold whole
// rows. Layers may take turns. It returns an error when a value cannot be
// stored, the rows are more than the grid's, or writing fails; the writer is
// of no use then.
func (w *Writer) WriteRows(layer int, vals []float32, has []bool) error {
	if w.err != nil {
		return w.err
	}
	w.err = w.writeRows(layer, vals, has)
	return w.err
}

func (w *Writer) writeRows(layer int, vals []float32, has []bool) error {
	cols := w.grid.Cols()
	if layer < 0 || layer >= len(w.layers) || len(vals)%cols != 0 || len(vals) != len(has) {
		return fmt.Errorf("geotiff: %d values and %d marks for layer %d; want whole rows of %d for layers 0 to %d", len(vals), len(has), layer, cols, len(w.layers)-1)
	}
	l := &w.layers[layer]
	if rows := len(vals) / cols; rows > w.grid.Rows()-l.rows {
		return fmt.Errorf("geotiff: %d rows after %d in layer %d; the grid has %d", rows, l.rows, layer, w.grid.Rows())
	}
	for len(vals) > 0 {
		var err error
		if l.pending, err = w.appendRow(l.pending, vals[:cols], has[:cols]); err != nil {
			return fmt.Errorf("geotiff: layer %d, row %d, %w", layer, l.rows, err)
		}
		vals, has = vals[cols:], has[cols:]
		l.rows++
		if l.rows%w.strip == 0 || l.rows == w.grid.Rows() {
			if err := w.flush(l); err != nil {
				return err
			}
		}
	}
	return nil
}

// flush compresses and writes the pending strip of a layer.
func (w *Writer) flush(l *layerWriter) error {
	w.packed.Reset()
	w.z.Reset(&w.packed)
	if _, err := w.z.Write(l.pending); err != nil {
		return err
	}
	if err := w.z.Close(); err != nil {
		return err
	}
	l.pending = l.pending[:0]
	l.offsets = append(l.offsets, uint64(w.out.at))
	l.counts = append(l.counts, uint64(w.packed.Len()))
	return w.out.write(w.packed.Bytes())
}

// Close writes the directory and completes the header. It returns an error
// when rows are missing or writing fails. It does not close the underlying
// file.
func (w *Writer) Close() error {
	if w.err != nil {
		return w.err
	}
	for i := range w.layers {
		if rows := w.layers[i].rows; rows != w.grid.Rows() {
			return fmt.Errorf("geotiff: layer %d has %d rows of %d", i, rows, w.grid.Rows())
		}
	}
	at, dir := w.directory()
	if err := w.out.write(dir); err != nil {
		return err
	}
	w.err = errors.New("geotiff: the writer is closed")
	return w.out.finish(w.header(at))
}

// header returns the first bytes of the file, which tell where its directory
// stands.
func (w *Writer) header(at int64) []byte {
	le := binary.LittleEndian
	if w.big {
		return le.AppendUint64([]byte{'I', 'I', 43, 0, 8, 0, 0, 0}, uint64(at))
	}
	return le.AppendUint32([]byte{'I', 'I', 42, 0}, uint32(at))
}

// Encode writes a whole file: rows fills vals and has with rows
// [first, first+n) of a layer. The errors are those of NewWriter, WriteRows,
// Close and rows.
func Encode(w io.Writer, g grid.Grid, layers int, rows func(layer, first, n int, vals []float32, has []bool) error, opts WriteOptions) error {
	out, err := NewWriter(w, g, layers, opts)
	if err != nil {
		return err
	}
	vals := make([]float32, out.strip*g.Cols())
	has := make([]bool, len(vals))
	for layer := range layers {
		for first := 0; first < g.Rows(); first += out.strip {
			n := min(out.strip, g.Rows()-first)
			v, h := vals[:n*g.Cols()], has[:n*g.Cols()]
			if err := rows(layer, first, n, v, h); err != nil {
				return err
			}
			if err := out.WriteRows(layer, v, h); err != nil {
				return err
			}
		}
	}
	return out.Close()
}
