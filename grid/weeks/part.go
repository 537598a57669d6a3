package weeks

import (
	"context"
	"fmt"
	"io"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/status"
)

// Span is a stretch of rows of a grid, [From, To).
type Span struct{ From, To int }

// Rows returns how many rows there are.
func (s Span) Rows() int { return s.To - s.From }

// holds reports whether a row is one of them.
func (s Span) holds(row int) bool { return row >= s.From && row < s.To }

// both returns the rows that two spans share.
func (s Span) both(o Span) Span { return Span{From: max(s.From, o.From), To: min(s.To, o.To)} }

// Part is what Compute works out of some rows of a grid, so that the rest can be
// worked out elsewhere. Which days are unwrapped hangs on the whole grid: those
// of a part are days of the year still.
type Part struct {
	rows   Span
	fields []*Field
}

// ComputePart works out rows of a grid as Compute does. Normals are read in the
// same blocks, since where a block begins may move their last digits: those at
// the ends are read whole. Options.Done is told of the wanted rows, and of the
// partial cells of the blocks that begin among them. Errors are those of
// Compute; it panics when the rows are not some of the grid.
func ComputePart(ctx context.Context, normals Normals, windows []status.Window, opts Options, rows Span) (*Part, error) {
	if rows.From < 0 || rows.From >= rows.To || rows.To > normals.Grid().Rows() {
		panic(fmt.Sprintf("weeks: rows %d:%d of %d", rows.From, rows.To, normals.Grid().Rows()))
	}
	opts.rows = rows
	fields, err := compute(ctx, normals, windows, opts)
	if err != nil {
		return nil, err
	}
	return &Part{rows: rows, fields: fields}, nil
}

// Save writes a part for an Assembly of the same program. It returns the errors
// of w.
func (p *Part) Save(w io.Writer) error {
	s := saver{w: w}
	common := p.fields[0].Common
	for _, r := range []*grid.Raster[float32]{common.Coldest, common.Warmest, common.Near} {
		saveRows(&s, r, p.rows)
	}
	saveRows(&s, common.Typical.Blocks, common.Typical.within(p.rows))
	for _, f := range p.fields {
		saveRows(&s, f.Reason, p.rows)
		for _, r := range f.rasters() {
			saveRows(&s, *r, p.rows)
		}
	}
	return s.err
}

// Assembly puts the parts of a computation together.
type Assembly struct {
	g      grid.Grid
	fields []*Field
}

// NewAssembly makes ready for parts of the fields of windows on a grid.
func NewAssembly(g grid.Grid, windows []status.Window) *Assembly {
	a := &Assembly{g: g}
	common := &Common{Typical: newYears(g)}
	for _, w := range windows {
		a.fields = append(a.fields, &Field{Window: w, Cut: 1, Common: common})
	}
	return a
}

// Load takes over the part of some rows. It returns an error when the text ends
// early or goes on; then the assembly is of no use. It panics when the rows are
// not some of the grid.
func (a *Assembly) Load(r io.Reader, rows Span) error {
	l := loader{r: r}
	common := a.fields[0].Common
	for _, into := range []**grid.Raster[float32]{&common.Coldest, &common.Warmest, &common.Near} {
		loadRows(&l, into, a.g, rows)
	}
	loadRows(&l, &common.Typical.Blocks, common.Typical.Blocks.Grid(), common.Typical.within(rows))
	for _, f := range a.fields {
		loadRows[crossing.Reason](&l, &f.Reason, a.g, rows)
		for _, into := range f.rasters() {
			loadRows(&l, into, a.g, rows)
		}
	}
	if n, _ := r.Read(make([]byte, 1)); l.err == nil && n > 0 {
		l.err = fmt.Errorf("saved rows: more than those of %d windows", len(a.fields))
	}
	return l.err
}

// Fields returns what Compute gives. Every row must have been loaded, once.
func (a *Assembly) Fields() []*Field {
	for _, f := range a.fields {
		f.unwrap()
	}
	return a.fields
}

// within returns the rows of blocks whose middle row, which stands for them,
// is one of some rows of the grid.
func (y *Years) within(rows Span) Span {
	upTo := func(row int) int { return (row - y.Stride/2 + y.Stride - 1) / y.Stride } // blocks with their middle before a row
	n := y.Blocks.Grid().Rows()
	return Span{From: min(upTo(rows.From), n), To: min(upTo(rows.To), n)}
}

// saveRows writes whether there is a raster, and its rows.
func saveRows[T any](s *saver, r *grid.Raster[T], rows Span) {
	s.put(r != nil)
	if r == nil {
		return
	}
	for row := rows.From; row < rows.To; row++ {
		vals, has := r.Row(row)
		s.put(vals)
		s.put(has)
	}
}

// loadRows reads rows into a raster, which is made with the first of them.
func loadRows[T any](l *loader, into **grid.Raster[T], g grid.Grid, rows Span) {
	var there bool
	if l.get(&there); l.err != nil || !there {
		return
	}
	if *into == nil {
		*into = grid.NewRaster[T](g)
	}
	for row := rows.From; row < rows.To; row++ {
		vals, has := (*into).Row(row)
		l.get(vals)
		l.get(has)
	}
}
