package weeks

import (
	"fmt"

	"weekband/grid"
	"weekband/grid/status"
)

// Slabs gather the blocks of a Stream into fields of some rows at a time.
type Slabs struct {
	g       grid.Grid
	windows []status.Window
	opts    Options
	rows    int
	give    func(first int, fields []*Field) error

	first  int // row of the slab in hand
	filled int // rows of it
	fields []*Field
}

// NewSlabs makes ready to gather rows of a grid. give gets every slab, of rows
// rows or the last ones; its fields hold row first as their row 0, keep no
// typical years and are used again. Their days are of the year, and their grid
// tells how many rows and columns there are but not where.
func NewSlabs(g grid.Grid, windows []status.Window, opts Options, rows int, give func(first int, fields []*Field) error) *Slabs {
	return &Slabs{g: g, windows: windows, opts: opts, rows: rows, give: give}
}

// Take takes over the next block, in their order. It returns the errors of give.
func (s *Slabs) Take(b *Block) error {
	for k := range b.Rows {
		if s.filled == 0 {
			if err := s.begin(b.First + k); err != nil {
				return err
			}
		}
		takeRow(s.fields, s.filled, b, k)
		if s.filled++; s.filled == s.fields[0].Grid().Rows() {
			if err := s.give(s.first, s.fields); err != nil {
				return err
			}
			s.filled = 0
		}
	}
	return nil
}

// begin makes room for the slab from a row on.
func (s *Slabs) begin(first int) error {
	rows := min(s.rows, s.g.Rows()-first)
	s.first = first
	if s.fields != nil && s.fields[0].Grid().Rows() == rows {
		return nil
	}
	g, err := grid.New(s.g.Box(), rows, s.g.Cols())
	if err != nil {
		return fmt.Errorf("rows %d to %d: %w", first, first+rows-1, err)
	}
	s.fields = newFields(g, s.windows, s.opts.Offsets != nil, s.opts.knowsError())
	return nil
}
