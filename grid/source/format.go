package source

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"

	"weekband/grid/source/asc"
	"weekband/grid/source/frame"
	"weekband/grid/source/geotiff"
	"weekband/grid/source/netcdf"
)

// format is a kind of file that is read here.
type format struct {
	name   string // as messages ask for one
	begins func(head []byte) bool
	open   func(f *file, r io.ReaderAt, size int64, name string, opts Options) (frame.Frame, error)
}

// formats are all of them. A further one is a package that decodes it and a line
// here.
var formats = []format{
	{"an Esri ASCII grid", asc.Begins, (*file).openASC},
	{"a GeoTIFF", geotiff.Begins, (*file).openTIFF},
	{"NetCDF classic", netcdf.Begins, (*file).openNetCDF},
}

// refused are beginnings of files that hold something else, and what to do.
var refused = []struct{ head, why string }{
	{"\x1f\x8b", "the file is compressed with gzip: unpack it first"},
	{"PK\x03\x04", "the file is a zip archive: unpack it first"},
	{"\xef\xbb\xbf", byteOrderMark}, {"\xff\xfe", byteOrderMark}, {"\xfe\xff", byteOrderMark},
}

const byteOrderMark = "the file begins with a byte order mark: save it as plain ASCII text"

// formatOf tells the format of a file by its first bytes.
func formatOf(r io.ReaderAt, size int64, name string) (format, error) {
	head := make([]byte, min(size, 16))
	if _, err := r.ReadAt(head, 0); err != nil && !errors.Is(err, io.EOF) {
		return format{}, fmt.Errorf("%s: %w", name, err)
	}
	if len(head) == 0 {
		return format{}, fmt.Errorf("%s: the file is empty; want %s", name, wanted())
	}
	for _, f := range formats {
		if f.begins(head) {
			return f, nil
		}
	}
	for _, o := range refused {
		if bytes.HasPrefix(head, []byte(o.head)) {
			return format{}, fmt.Errorf("%s: %s; want %s", name, o.why, wanted())
		}
	}
	return format{}, &FormatError{Name: name, Head: head}
}

// wanted lists the formats for messages.
func wanted() string {
	var names []string
	for _, f := range formats {
		names = append(names, f.name)
	}
	last := len(names) - 1
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// FormatError says that a file is of no format this package reads.
type FormatError struct {
	Name string // of the file
	Head []byte // its first bytes
}

// Error names the file, its first bytes and the formats.
func (e *FormatError) Error() string {
	return fmt.Sprintf("%s: the first bytes %q are of no known format; want %s", e.Name, e.Head, wanted())
}

// openTIFF makes f the layers of a GeoTIFF, and returns where its cells lie.
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

// openNetCDF is openTIFF for NetCDF classic.
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

// openASC is openTIFF for an Esri ASCII grid.
func (f *file) openASC(r io.ReaderAt, size int64, name string, _ Options) (frame.Frame, error) {
	d, err := asc.Open(r, size, name)
	if err != nil {
		return frame.Frame{}, err
	}
	f.decoder = d
	f.told = Description{Format: "Esri ASCII grid", NoData: d.NoData(), CRS: "not given; taken for longitudes and latitudes", BlockRows: 1}
	return d.Frame(), nil
}
