package weeks

import (
	"context"
	"fmt"
	"io"

	"weekband/grid"
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

// WritePart works out rows of a grid as Compute does, so that the rest can be
// worked out elsewhere, and writes them for ReadPart of the same program. It
// holds some blocks at a time and the typical years. Normals are read in the
// same blocks as for all rows, since where a read begins may move last digits:
// those at the ends are read whole. Options.Done is told of the wanted rows, and
// of the partial cells of the blocks that begin among them. Errors are those of
// Compute and of w; it panics when the rows are not some of the grid.
func WritePart(ctx context.Context, w io.Writer, normals Normals, windows []status.Window, opts Options, rows Span) error {
	mustHold(normals.Grid(), rows)
	opts.rows = rows
	years := NewYears(normals.Grid())
	s := saver{w: w}
	one := func(*Block) error { return nil }
	err := Stream(ctx, normals, windows, opts, years, one, func(b *Block) error {
		saveBlock(&s, b)
		return s.err
	})
	if err != nil {
		return err
	}
	of := years.within(rows)
	for row := of.From; row < of.To; row++ {
		vals, has := years.Blocks.Row(row)
		s.put(vals)
		s.put(has)
	}
	return s.err
}

// ReadPart reads what WritePart wrote of windows on rows of a grid, and gives
// its blocks to take from north to south and, unless that is nil, the typical
// years to years, made by NewYears. A block must not be kept. It returns
// the first error of take, and one when the text ends early, goes on or is of
// something else; then what take was given must not be used. It panics when the
// rows are not some of the grid.
func ReadPart(r io.Reader, g grid.Grid, windows []status.Window, rows Span, years *Years, take func(*Block) error) error {
	mustHold(g, rows)
	if years == nil {
		years = NewYears(g)
	}
	l := loader{r: r}
	b := &Block{Windows: make([]Strip, len(windows))}
	for next := rows.From; next < rows.To; next += b.Rows {
		if loadBlock(&l, b, next, rows.To, g.Cols()); l.err != nil {
			return l.err
		}
		if err := take(b); err != nil {
			return err
		}
	}
	of := years.within(rows)
	for row := of.From; row < of.To; row++ {
		vals, has := years.Blocks.Row(row)
		l.get(vals)
		l.get(has)
	}
	if n, _ := r.Read(make([]byte, 1)); l.err == nil && n > 0 {
		return fmt.Errorf("saved rows: they go on after %d:%d", rows.From, rows.To)
	}
	return l.err
}

func mustHold(g grid.Grid, rows Span) {
	if rows.From < 0 || rows.From >= rows.To || rows.To > g.Rows() {
		panic(fmt.Sprintf("weeks: rows %d:%d of %d", rows.From, rows.To, g.Rows()))
	}
}

// Assembly puts the parts of a computation together.
type Assembly struct {
	windows []status.Window
	g       grid.Grid
	years   *Years
	fields  []*Field // nil before the first part
}

// NewAssembly makes ready for parts of the fields of windows on a grid.
func NewAssembly(g grid.Grid, windows []status.Window) *Assembly {
	return &Assembly{windows: windows, g: g, years: NewYears(g)}
}

// Load takes over the part of some rows. Errors are those of ReadPart; after
// one the assembly is of no use.
func (a *Assembly) Load(r io.Reader, rows Span) error {
	return ReadPart(r, a.g, a.windows, rows, a.years, func(b *Block) error {
		if a.fields == nil {
			a.fields = newFields(a.g, a.windows, b.Near != nil, b.Windows[0].Error != nil)
			a.fields[0].Typical = a.years
		}
		take(a.fields, b)
		return nil
	})
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
