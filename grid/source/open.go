package source

import (
	"errors"
	"fmt"
	"io"
	"os"

	"weekband/grid"
	"weekband/grid/source/frame"
)

// decoder is what the readers of all formats have in common.
type decoder interface {
	Count() int
	Read(layer, first, rows int, vals []float32, has []bool) error
}

// file adapts a decoder to Layers.
type file struct {
	decoder
	place  frame.Placement
	told   Description
	closer io.Closer
}

// Open opens a file by its content. It returns an error that names the file
// when it cannot be opened, is of no known format (*netcdf.HDF5Error for
// NetCDF-4, *FormatError for formats read by others), is damaged, or does not
// lie on a regular grid of longitudes and latitudes (*geotiff.ProjectedError,
// *netcdf.UnevenError). Uneven latitudes of a Gaussian grid are interpolated to
// even ones, with a note.
func Open(path string, opts Options) (Layers, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	info, err := f.Stat()
	if err == nil && !info.Mode().IsRegular() {
		err = fmt.Errorf("%s: not a regular file", path)
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	l, err := Decode(f, info.Size(), path, opts)
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	l.(*file).closer = f
	return l, nil
}

// Decode is Open for a file of the given size that is already open. name
// stands in messages. Close does not close r.
func Decode(r io.ReaderAt, size int64, name string, opts Options) (Layers, error) {
	kind, err := formatOf(r, size, name)
	if err != nil {
		return nil, err
	}
	var f file
	where, err := kind.open(&f, r, size, name, opts)
	if err != nil {
		return nil, err
	}
	f.told.Name = name
	if f.place, err = frame.Place(where); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	f.told.Notes = append(f.told.Notes, f.place.Notes()...)
	if err := f.believable(size); err != nil {
		return nil, err
	}
	return &f, nil
}

// A file with more cells than this, and more to each of its bytes than any
// raster packs to, promises what it does not hold. Deflate makes at most 1,032
// bytes of one (zlib's technical details); what is left out of a sparse file
// is hardly ever nine cells of ten.
const (
	fewCells  = 16 << 20
	mostCells = 10_000 // to a byte
)

// believable returns an error when the file is far too small for its cells.
func (f *file) believable(size int64) error {
	g := f.place.Grid()
	cells := float64(g.Rows()) * float64(g.Cols()) * float64(f.Count())
	if cells < fewCells || cells < mostCells*float64(size) {
		return nil
	}
	return fmt.Errorf("%s: %d layers of %d rows × %d columns in a file of %d bytes, more than any raster packs to; is it damaged, or a placeholder?", f.told.Name, f.Count(), g.Rows(), g.Cols(), size)
}

func (f *file) Grid() grid.Grid { return f.place.Grid() }

func (f *file) Describe() Description { return f.told }

func (f *file) Read(layer, first, rows int, vals []float32, has []bool) error {
	read := func(first, rows int, vals []float32, has []bool) error {
		return f.decoder.Read(layer, first, rows, vals, has)
	}
	if err := f.place.Check(first, rows, len(vals), len(has)); err != nil {
		return fmt.Errorf("%s: %w", f.told.Name, err)
	}
	return f.place.Read(read, first, rows, vals, has)
}

func (f *file) Close() error {
	if f.closer == nil {
		return nil
	}
	return f.closer.Close()
}
