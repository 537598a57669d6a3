package weeks

import (
	"encoding/binary"
	"fmt"
	"io"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
)

// Save writes what Compute gave, for Load of the same program: Cut and
// rasters, without windows and grid. It returns the errors of w.
func Save(w io.Writer, fields []*Field) error {
	s := saver{w: w}
	for i, f := range fields {
		if i == 0 {
			saveRaster(&s, f.Coldest)
			saveRaster(&s, f.Warmest)
			saveRaster(&s, f.Near)
			saveRaster(&s, f.Typical.Blocks)
		}
		s.put(float64(f.Cut))
		saveRaster(&s, f.Reason)
		for _, r := range f.rasters() {
			saveRaster(&s, *r)
		}
	}
	return s.err
}

// Load reads what Save wrote: the fields that Compute gives for windows on g.
// It returns an error when the text ends early or goes on, or holds rasters of
// another size.
func Load(r io.Reader, g grid.Grid, windows []status.Window) ([]*Field, error) {
	l := loader{r: r}
	common := &Common{Typical: NewYears(g)}
	var fields []*Field
	for i, w := range windows {
		f := &Field{Window: w, Common: common}
		if i == 0 {
			common.Coldest, common.Warmest, common.Near = loadRaster[float32](&l, g), loadRaster[float32](&l, g), loadRaster[float32](&l, g)
			common.Typical.Blocks = loadRaster[Months](&l, common.Typical.Blocks.Grid())
		}
		var cut float64
		l.get(&cut)
		f.Cut = season.Day(cut)
		f.Reason = loadRaster[crossing.Reason](&l, g)
		for _, r := range f.rasters() {
			*r = loadRaster[float32](&l, g)
		}
		fields = append(fields, f)
	}
	if n, _ := r.Read(make([]byte, 1)); l.err == nil && n > 0 {
		l.err = fmt.Errorf("saved fields: more than %d windows", len(windows))
	}
	return fields, l.err
}

// rasters are the rasters of days and slopes that a field has for itself.
func (f *Field) rasters() []**grid.Raster[float32] {
	return []**grid.Raster[float32]{&f.Day, &f.Spread, &f.OntimeFrom, &f.CatchupTo, &f.Slope, &f.Error}
}

// saver writes values until one cannot be written.
type saver struct {
	w   io.Writer
	err error
}

func (s *saver) put(v any) {
	if s.err == nil {
		s.err = binary.Write(s.w, binary.LittleEndian, v)
	}
}

// saveRaster writes how many rows a raster has, 0 for nil, and its rows.
func saveRaster[T any](s *saver, r *grid.Raster[T]) {
	if r == nil {
		s.put(uint32(0))
		return
	}
	s.put(uint32(r.Grid().Rows()))
	for row := range r.Grid().Rows() {
		vals, has := r.Row(row)
		s.put(vals)
		s.put(has)
	}
}

// loader reads values until one cannot be read.
type loader struct {
	r   io.Reader
	err error
}

func (l *loader) get(v any) {
	if l.err == nil {
		l.err = binary.Read(l.r, binary.LittleEndian, v)
	}
}

func loadRaster[T any](l *loader, g grid.Grid) *grid.Raster[T] {
	var rows uint32
	if l.get(&rows); rows == 0 || l.err != nil {
		return nil
	}
	if int(rows) != g.Rows() {
		l.err = fmt.Errorf("saved fields: a raster of %d rows; want %d", rows, g.Rows())
		return nil
	}
	r := grid.NewRaster[T](g)
	for row := range g.Rows() {
		vals, has := r.Row(row)
		l.get(vals)
		l.get(has)
	}
	return r
}
