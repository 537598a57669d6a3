package geotiff

import (
	"fmt"
	"io"

	"weekband/grid/source/frame"
)

// Options set how a file is read. The zero value is the default.
type Options struct {
	CacheBytes int64 // for decoded blocks; 0 is 256 MB
}

// File is an open GeoTIFF. Its methods may be called from several goroutines.
type File struct {
	s     *stream
	bands []band
	where georef
	notes []string
	nod   string
	cache *cache

	blocks int64 // of all pages
}

// Open reads the directories of a file of the given size. Every image that
// is neither an overview nor a mask is part of the stack; each of its bands
// is a layer. It returns an error that names the file when it is not a TIFF,
// is cut short, is stored in a way that is not supported, or does not lie in
// longitudes and latitudes (a *ProjectedError).
func Open(r io.ReaderAt, size int64, name string, opts Options) (*File, error) {
	s, dirs, err := openStream(r, size, name)
	if err != nil {
		return nil, err
	}
	if opts.CacheBytes == 0 {
		opts.CacheBytes = 256 << 20
	}
	f := &File{s: s, cache: newCache(opts.CacheBytes)}
	for _, d := range dirs {
		whole, err := s.isWhole(d)
		if err != nil {
			return nil, err
		}
		if !whole {
			continue
		}
		if err := f.addPage(d); err != nil {
			return nil, err
		}
	}
	if len(f.bands) == 0 {
		return nil, fmt.Errorf("%s: no image of full resolution", name)
	}
	return f, nil
}

// isWhole reports whether an image is one of full resolution, and no overview.
func (s *stream) isWhole(d directory) (bool, error) {
	const reduced, mask = 1, 4 // TIFF 6.0, NewSubfileType
	kind, err := s.one(d, tagNewSubfileType, 0)
	if kind&reduced == 0 && kind&mask != 0 {
		err = fmt.Errorf("%s: missing cells are marked by a mask, which is not supported; turn it into a nodata value with gdalwarp -dstnodata -9999", s.name)
	}
	return kind&reduced == 0, err
}

// addPage appends an image to the stack, unless it is of another size than the
// first.
func (f *File) addPage(d directory) error {
	p, err := f.s.readPage(d)
	if err != nil {
		return err
	}
	if len(f.bands) > 0 {
		if first := f.bands[0].page; p.rows != first.rows || p.cols != first.cols {
			f.notes = append(f.notes, fmt.Sprintf("an image of %d × %d cells is left out; the first has %d × %d", p.rows, p.cols, first.rows, first.cols))
			return nil
		}
		last := f.bands[len(f.bands)-1].page
		p.firstBlock = last.firstBlock + len(last.offsets)*last.subs()
	}
	if f.blocks += int64(len(p.offsets)); f.blocks > f.s.size/4 { // a place of at least 4 bytes each
		return fmt.Errorf("%s: %d blocks or more in a file of %d bytes", f.s.name, f.blocks, f.s.size)
	}
	return f.addBands(d, p, len(f.bands) == 0)
}

// addBands appends the bands of a page.
func (f *File) addBands(d directory, p *page, first bool) error {
	g, ok, err := f.s.readGeoref(d, p)
	if err != nil {
		return err
	}
	switch {
	case first && !ok:
		return fmt.Errorf("%s: no tags say where the cells lie; add them with gdal_translate -a_ullr WEST NORTH EAST SOUTH -a_srs EPSG:4326", f.s.name)
	case first:
		f.where = g
		if g.note != "" {
			f.notes = append(f.notes, g.note)
		}
	case ok && !g.frame.Near(f.where.frame):
		return fmt.Errorf("%s: the image at byte %d lies elsewhere than the first (west %.9g, north %.9g; want west %.9g, north %.9g)",
			f.s.name, d.at, g.frame.West, g.frame.North, f.where.frame.West, f.where.frame.North)
	}
	m, err := f.s.readMetadata(d)
	if err != nil {
		return err
	}
	if first {
		f.nod = m.nodText
	}
	for i := range p.bands {
		f.bands = append(f.bands, m.band(p, i))
	}
	return nil
}

// Frame returns where the cells lie.
func (f *File) Frame() frame.Frame { return f.where.frame }

// Count returns the number of layers.
func (f *File) Count() int { return len(f.bands) }

// Info says what a file tells about itself, for messages.
type Info struct {
	Big       bool     // BigTIFF
	CRS       string   // reference system in words
	NoData    string   // as written, "" when the file names none
	Unit      string   // of the first layer, "" when not given
	Names     []string // of the layers, "" where not given
	Sample    string   // such as "float32"
	BlockRows int      // rows of a strip or tile
	Notes     []string // what a user should know
}

// Info returns what the file tells about itself.
func (f *File) Info() Info {
	p := f.bands[0].page
	info := Info{
		Big: f.s.big, CRS: f.where.crs, NoData: f.nod, Unit: f.bands[0].unit,
		Sample: p.kind.String(), BlockRows: p.subH, Notes: f.notes,
	}
	for i := range f.bands {
		info.Names = append(info.Names, f.bands[i].name)
	}
	return info
}

// Read fills vals and has, each rows × columns long, with rows
// [first, first+rows) of a layer, in the file's order and with the file's
// own scale and offset applied. has is false where the file holds its nodata
// value, a NaN, an infinity or an unwritten block. It returns an error that
// names the block when one cannot be decoded.
func (f *File) Read(layer, first, rows int, vals []float32, has []bool) error {
	if layer < 0 || layer >= len(f.bands) {
		return fmt.Errorf("%s: layer %d was asked for; it has layers 0 to %d", f.s.name, layer, len(f.bands)-1)
	}
	b := &f.bands[layer]
	p := b.page
	if first < 0 || rows < 1 || first > p.rows-rows || len(vals) < rows*p.cols || len(has) < rows*p.cols {
		return fmt.Errorf("%s: rows %d to %d were asked for, with room for %d cells; it has rows 0 to %d of %d", f.s.name, first, first+rows-1, len(vals), p.rows-1, p.cols)
	}
	plane := 0
	if p.apart {
		plane = b.index
	}
	for row := first; row < first+rows; {
		s := p.piece(row, plane)
		end := min(s.end, first+rows)
		for s.across = range p.across {
			if err := f.readPiece(b, s, row, end, vals[(row-first)*p.cols:], has[(row-first)*p.cols:]); err != nil {
				return err
			}
		}
		row = end
	}
	return nil
}

// readPiece copies rows [row, end) of one piece to its columns of vals.
func (f *File) readPiece(b *band, s spot, row, end int, vals []float32, has []bool) error {
	p := b.page
	blk, err := f.block(p, s)
	if err != nil {
		return err
	}
	defer f.cache.release(blk)
	left := s.across * p.blockW
	n := min(p.blockW, p.cols-left)
	size := p.kind.size()
	stride, start := size*p.perBlock(), 0
	if !p.apart {
		start = b.index * size
	}
	for i := range end - row {
		lo := i*p.cols + left
		if blk.data == nil {
			clear(vals[lo : lo+n])
			clear(has[lo : lo+n])
			continue
		}
		b.convert(vals[lo:lo+n], has[lo:lo+n], blk.data, (row-s.first+i)*p.rowBytes()+start, stride)
	}
	return nil
}
