package source

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"

	"weekband/grid"
	"weekband/grid/source/asc"
	"weekband/grid/source/frame"
	"weekband/grid/source/geotiff"
	"weekband/grid/source/netcdf"
)

// decoder is what the three readers have in common.
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
// NetCDF-4, *FormatError for formats read by others), is damaged, or does not lie on a regular grid of longitudes and
// latitudes (*geotiff.ProjectedError, *netcdf.UnevenError). Uneven latitudes of a
// Gaussian grid are interpolated to even ones, with a note.
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
	head := make([]byte, min(size, 16))
	if _, err := r.ReadAt(head, 0); err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	var f file
	var where frame.Frame
	var err error
	switch kind := sniff(head); kind {
	case "tiff":
		where, err = f.openTIFF(r, size, name, opts)
	case "netcdf":
		where, err = f.openNetCDF(r, size, name, opts)
	case "asc":
		where, err = f.openASC(r, size, name, opts)
	case "":
		err = &FormatError{Name: name, Head: head}
	default:
		err = fmt.Errorf("%s: %s; want an Esri ASCII grid, a GeoTIFF or NetCDF classic", name, kind)
	}
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

// sniff tells the format by the first bytes: "tiff", "netcdf", "asc", words
// about what the file is instead, or "" when it cannot be told.
func sniff(b []byte) string {
	switch {
	case len(b) == 0:
		return "the file is empty"
	case bytes.HasPrefix(b, []byte("II*\x00")), bytes.HasPrefix(b, []byte("MM\x00*")),
		bytes.HasPrefix(b, []byte("II+\x00")), bytes.HasPrefix(b, []byte("MM\x00+")):
		return "tiff"
	case bytes.HasPrefix(b, []byte("CDF")), bytes.HasPrefix(b, []byte("\x89HDF")):
		return "netcdf"
	case bytes.HasPrefix(b, []byte("\x1f\x8b")):
		return "the file is compressed with gzip: unpack it first"
	case bytes.HasPrefix(b, []byte("\xef\xbb\xbf")), bytes.HasPrefix(b, []byte("\xff\xfe")), bytes.HasPrefix(b, []byte("\xfe\xff")):
		return "the file begins with a byte order mark: save it as plain ASCII text"
	case bytes.HasPrefix(b, []byte("PK\x03\x04")):
		return "the file is a zip archive: unpack it first"
	}
	for _, key := range []string{"ncols", "nrows", "xll", "yll", "cellsize", "nodata", "dx", "dy"} {
		if bytes.HasPrefix(bytes.ToLower(bytes.TrimLeft(b, " \t\r\n")), []byte(key)) {
			return "asc"
		}
	}
	return ""
}

// FormatError says that a file is of no format this package reads.
type FormatError struct {
	Name string // of the file
	Head []byte // its first bytes
}

// Error names the file, its first bytes and the formats.
func (e *FormatError) Error() string {
	return fmt.Sprintf("%s: the first bytes %q are of no known format; want an Esri ASCII grid, a GeoTIFF or NetCDF classic", e.Name, e.Head)
}

func (f *file) openTIFF(r io.ReaderAt, size int64, name string, opts Options) (frame.Frame, error) {
	d, err := geotiff.Open(r, size, name, geotiff.Options{CacheBytes: opts.CacheBytes})
	if err != nil {
		return frame.Frame{}, err
	}
	f.decoder = d
	info := d.Info()
	f.told = Description{
		Format: "GeoTIFF, " + info.Sample, Unit: info.Unit, NoData: info.NoData, CRS: info.CRS,
		BlockRows: info.BlockRows, Notes: info.Notes,
	}
	if info.Big {
		f.told.Format = "GeoTIFF (BigTIFF), " + info.Sample
	}
	for _, n := range info.Names {
		if n != "" {
			f.told.Names = info.Names
		}
	}
	return d.Frame(), nil
}

func (f *file) openNetCDF(r io.ReaderAt, size int64, name string, opts Options) (frame.Frame, error) {
	d, err := netcdf.Open(r, size, name, netcdf.Options{Variable: opts.Variable})
	if err != nil {
		return frame.Frame{}, err
	}
	f.decoder = d
	info := d.Info()
	f.told = Description{
		Format: fmt.Sprintf("NetCDF classic (CDF-%d)", info.Version), Variable: info.Variable, LongName: info.LongName,
		Unit: info.Unit, Months: info.Months, NoData: info.NoData, CRS: "longitudes and latitudes", BlockRows: 1,
	}
	where, err := d.Frame()
	uneven, ok := errors.AsType[*netcdf.UnevenError](err)
	if !ok {
		return where, err
	}
	rows, where, err := even(d, uneven)
	if err != nil {
		return where, err
	}
	f.decoder = rows
	f.told.Notes = append(f.told.Notes, rows.note())
	return where, nil
}

func (f *file) openASC(r io.ReaderAt, size int64, name string, _ Options) (frame.Frame, error) {
	d, err := asc.Open(r, size, name)
	if err != nil {
		return frame.Frame{}, err
	}
	f.decoder = d
	f.told = Description{Format: "Esri ASCII grid", NoData: d.NoData(), CRS: "not given; taken for longitudes and latitudes", BlockRows: 1}
	return d.Frame(), nil
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
