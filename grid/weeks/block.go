package weeks

import (
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/status"
)

// Block is what windows give on some rows of a grid, row by row from the
// north-west. Temperatures are in °C.
type Block struct {
	First, Rows int
	// Has tells which cells have normals; the rest holds where it does.
	Has              []bool
	Coldest, Warmest []float32 // of the year
	Near             []float32 // as in Common; nil without calibration
	Windows          []Strip   // in the order of the windows
}

// Strip is what one window gives on a Block. Reason is NoData where a cell has
// no normals. Slope has a value where the reason crosses and the others where it
// has a day, as in a Field, except that days are not unwrapped. Day lies in
// [1, 366), OntimeFrom may be below 1 and CatchupTo past 366.
type Strip struct {
	Reason                []crossing.Reason
	Day, Spread           []float32
	OntimeFrom, CatchupTo []float32
	Slope                 []float32
	Error                 []float32 // nil when not known
}

// fit gives the block room for rows of cols cells, and takes what it held.
func (b *Block) fit(first, rows, cols int) {
	b.First, b.Rows = first, rows
	n := rows * cols
	b.Has = sized(b.Has, n)
	b.Coldest, b.Warmest = sized(b.Coldest, n), sized(b.Warmest, n)
	if b.Near != nil {
		b.Near = sized(b.Near, n)
	}
	for i := range b.Windows {
		s := &b.Windows[i]
		s.Reason = sized(s.Reason, n)
		for _, vals := range []*[]float32{&s.Day, &s.Spread, &s.OntimeFrom, &s.CatchupTo, &s.Slope} {
			*vals = sized(*vals, n)
		}
		if s.Error != nil {
			s.Error = sized(s.Error, n)
		}
	}
}

// sized returns a slice of n zero elements, the same when it has room.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	clear(s[:n])
	return s[:n]
}

// set takes over what a window gives at element i.
func (s *Strip) set(i int, p *status.Place) {
	s.Reason[i] = p.Crossing.Reason
	s.Slope[i] = float32(p.Crossing.Slope)
	if !p.Crossing.Reason.HasDay() {
		return
	}
	s.Day[i], s.Spread[i] = float32(p.Crossing.Day), float32(p.Spread)
	if s.Error != nil {
		s.Error[i] = float32(p.Error)
	}
	s.OntimeFrom[i], s.CatchupTo[i] = float32(p.Calendar.OntimeFrom), float32(p.Calendar.CatchupTo)
}

// take copies a block into fields, which share their Common.
func take(fields []*Field, b *Block) {
	for k := range b.Rows {
		takeRow(fields, b.First+k, b, k)
	}
}

// takeRow copies row k of a block into a row of fields.
func takeRow(fields []*Field, row int, b *Block, k int) {
	cols := fields[0].Grid().Cols()
	lo, hi := k*cols, (k+1)*cols
	has := b.Has[lo:hi]
	put(fields[0].Coldest, row, b.Coldest[lo:hi], has)
	put(fields[0].Warmest, row, b.Warmest[lo:hi], has)
	if b.Near != nil {
		put(fields[0].Near, row, b.Near[lo:hi], has)
	}
	for i, f := range fields {
		s := &b.Windows[i]
		reasons := s.Reason[lo:hi]
		put(f.Reason, row, reasons, has)
		slopes, crosses := f.Slope.Row(row)
		copy(slopes, s.Slope[lo:hi])
		_, dated := f.Day.Row(row)
		for col, r := range reasons {
			crosses[col], dated[col] = r.Crosses(), r.HasDay()
		}
		put(f.Day, row, s.Day[lo:hi], dated)
		put(f.Spread, row, s.Spread[lo:hi], dated)
		put(f.OntimeFrom, row, s.OntimeFrom[lo:hi], dated)
		put(f.CatchupTo, row, s.CatchupTo[lo:hi], dated)
		if f.Error != nil {
			put(f.Error, row, s.Error[lo:hi], dated)
		}
	}
}

// put copies a row into a raster.
func put[T any](r *grid.Raster[T], row int, vals []T, has []bool) {
	v, h := r.Row(row)
	copy(v, vals)
	copy(h, has)
}
