package weeks

import (
	"slices"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/status"
)

// Sample gathers, from the blocks of a Stream, fields of a coarser grid that
// hold the fine grid's cell nearest to the middle of each of its own.
type Sample struct {
	fine       grid.Grid
	fields     []*Field
	rows, cols []int // the fine grid's, of every row and column
	next       int   // row that is filled next
	row        Block // that row, of one row
}

// NewSample makes ready to sample a grid on one over the same box that has at
// most so many cells.
func NewSample(g grid.Grid, windows []status.Window, opts Options, most int) (*Sample, error) {
	stride := 1
	for (g.Rows()/stride+1)*(g.Cols()/stride+1) > most {
		stride++
	}
	coarse, err := grid.New(g.Box(), (g.Rows()+stride-1)/stride, (g.Cols()+stride-1)/stride)
	if err != nil {
		return nil, err
	}
	return &Sample{
		fine: g, fields: newFields(coarse, windows, opts.Offsets != nil, opts.knowsError()),
		rows: nearest(coarse.Rows(), g.Rows()), cols: nearest(coarse.Cols(), g.Cols()),
	}, nil
}

// nearest returns, for the middle of each of n equal parts, the one of m equal
// parts it lies in.
func nearest(n, m int) []int {
	at := make([]int, n)
	for i := range at {
		at[i] = (2*i + 1) * m / (2 * n)
	}
	return at
}

// Take takes over the next block, in their order.
func (s *Sample) Take(b *Block) {
	for ; s.next < len(s.rows) && s.rows[s.next] < b.First+b.Rows; s.next++ {
		s.pick(b, (s.rows[s.next]-b.First)*s.fine.Cols())
		takeRow(s.fields, s.next, &s.row, 0)
	}
}

// pick makes row the wanted cells of the row that begins at an element of a
// block.
func (s *Sample) pick(b *Block, from int) {
	r := &s.row
	r.Windows = slices.Grow(r.Windows[:0], len(b.Windows))[:len(b.Windows)]
	picked(&r.Has, b.Has, from, s.cols)
	picked(&r.Coldest, b.Coldest, from, s.cols)
	picked(&r.Warmest, b.Warmest, from, s.cols)
	picked(&r.Near, b.Near, from, s.cols)
	for i := range b.Windows {
		to, strip := &r.Windows[i], &b.Windows[i]
		picked(&to.Reason, strip.Reason, from, s.cols)
		picked(&to.Day, strip.Day, from, s.cols)
		picked(&to.Spread, strip.Spread, from, s.cols)
		picked(&to.OntimeFrom, strip.OntimeFrom, from, s.cols)
		picked(&to.CatchupTo, strip.CatchupTo, from, s.cols)
		picked(&to.Slope, strip.Slope, from, s.cols)
		picked(&to.Error, strip.Error, from, s.cols)
	}
}

// picked sets to to the wanted elements after one; it stays nil where there are
// none.
func picked[T any](to *[]T, of []T, from int, cols []int) {
	if of == nil {
		return
	}
	*to = (*to)[:0]
	for _, col := range cols {
		*to = append(*to, of[from+col])
	}
}

// Fields returns the sampled fields after the last block, with days unwrapped
// at a cut of each window and the typical years that stand for their cells of
// those of the fine grid.
func (s *Sample) Fields(cuts []season.Day, years *Years) []*Field {
	coarse := s.fields[0].Grid()
	typical := &Years{Stride: 1, Blocks: grid.NewRaster[Months](coarse)}
	for row, fine := range s.rows {
		for col := range s.cols {
			if m, ok := years.Blocks.At(grid.Cell{Row: fine / years.Stride, Col: s.cols[col] / years.Stride}); ok {
				typical.Blocks.Set(grid.Cell{Row: row, Col: col}, m)
			}
		}
	}
	s.fields[0].Typical = typical
	for i, f := range s.fields {
		f.unwrapAt(cuts[i])
	}
	return s.fields
}
