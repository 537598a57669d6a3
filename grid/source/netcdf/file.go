package netcdf

import (
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"

	"weekband/grid/source/frame"
)

// Options set what is read of a file.
type Options struct {
	Variable string // "" takes the only variable on latitudes and longitudes, or 12 (365) alike for layers
}

// File is one variable of an open NetCDF file, or a stack of variables. Its
// methods may be called from several goroutines.
type File struct {
	r        io.ReaderAt
	size     int64
	name     string
	h        *header
	v        *variable
	means    meaning
	lat, lon axis
	layers   int
	layerDim int   // which of the variable's dimensions counts layers; −1 none
	stride   int64 // elements from one layer to the next, unless by records
	months   []int
	stacked  []stackedLayer // variables that are layers; nil when v holds all
	pool     sync.Pool
}

// Open reads the header of a file of the given size and finds the variable.
// It returns an error that names the file when it is not NetCDF classic (an
// *HDF5Error for NetCDF-4), is damaged or cut short, or when the variable
// cannot be told or is not a stack of latitudes × longitudes. Whether its
// steps are even is told by Frame.
func Open(r io.ReaderAt, size int64, name string, opts Options) (*File, error) {
	h, err := parse(r, size, name)
	if err != nil {
		return nil, err
	}
	f := &File{r: r, size: size, name: name, h: h}
	if err := f.choose(opts.Variable); err != nil {
		return nil, err
	}
	if m := f.v.attrs["_FillValue"].nums; len(m) > 0 {
		f.means.nodata = strconv.FormatFloat(m[0], 'g', -1, 64)
	} else if m := f.v.attrs["missing_value"].nums; len(m) > 0 {
		f.means.nodata = strconv.FormatFloat(m[0], 'g', -1, 64)
	}
	f.months = f.readMonths()
	f.pool.New = func() any { return new([]byte) }
	return f, nil
}

// Frame returns where the cells lie, or an *UnevenError when they do not lie
// in even steps.
func (f *File) Frame() (frame.Frame, error) { return f.makeFrame() }

// Count returns the number of layers.
func (f *File) Count() int { return f.layers }

// Info says what a file tells about a variable, for messages.
type Info struct {
	Version  int    // 1, 2 or 5
	Variable string // name
	LongName string // "" when not given
	Unit     string // "" when not given
	NoData   string // as written, "" when not given
	Months   []int  // 1 to 12 for every layer; nil when times are not known
}

// Info returns what the file tells about the variable.
func (f *File) Info() Info {
	text := func(name string) string { return strings.TrimSpace(f.v.attrs[name].text) }
	return Info{
		Version: int(f.h.version), Variable: f.v.name, LongName: text("long_name"), Unit: text("units"),
		NoData: f.means.nodata, Months: f.months,
	}
}

// readBytes is about how much is read at a time.
const readBytes = 256 << 10

// Read fills vals and has, each rows × columns long, with rows
// [first, first+rows) of a layer, in the file's order, unpacked by
// scale_factor and add_offset. has is false where the file holds a fill or
// missing value, a number outside the valid range, a NaN or an infinity.
func (f *File) Read(layer, first, rows int, vals []float32, has []bool) error {
	cols := len(f.lon.values)
	if layer < 0 || layer >= f.layers || first < 0 || rows < 1 || first > len(f.lat.values)-rows || len(vals) < rows*cols || len(has) < rows*cols {
		return fmt.Errorf("%s: layer %d, rows %d to %d were asked for, with room for %d cells; it has layers 0 to %d, rows 0 to %d of %d",
			f.name, layer, first, first+rows-1, len(vals), f.layers-1, len(f.lat.values)-1, cols)
	}
	size := int(f.v.typ.size()) // the same for all variables of a stack
	step := min(rows, max(1, readBytes/(cols*size)))
	buf := f.pool.Get().(*[]byte)
	defer f.pool.Put(buf)
	if cap(*buf) < step*cols*size {
		*buf = make([]byte, step*cols*size)
	}
	v, means, of := f.layer(layer)
	for done := 0; done < rows; done += step {
		n := min(step, rows-done) * cols
		b := (*buf)[:n*size]
		rec, at := f.position(of, first+done)
		off, err := f.h.place(v, rec, at, int64(len(b)), f.size)
		if err != nil {
			return fmt.Errorf("%s: %w", f.name, err)
		}
		if _, err := f.r.ReadAt(b, off); err != nil && !(errors.Is(err, io.EOF) && off+int64(len(b)) == f.size) {
			return fmt.Errorf("%s: variable %s, layer %d, row %d at byte %d: %w", f.name, v.name, layer, first+done, off, err)
		}
		means.decode(vals[done*cols:][:n], has[done*cols:][:n], b)
	}
	return nil
}
