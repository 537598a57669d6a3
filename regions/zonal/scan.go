package zonal

import (
	"math"
	"math/bits"
)

// scanRow sums what edges contribute to the cells of one row. An edge that
// descends by dy within a cell covers, east of it, dy of every later cell of
// the row and, of its own cell, dy times the mean distance to the cell's
// eastern side.
type scanRow struct {
	west  int       // column of the first entry
	later []float64 // height added to all columns east of this one
	own   []float64 // share added to this column alone
	used  []uint64  // bit i: column west+i has an entry

	active []edge // room for those of one shape that reach the row
}

// span makes an empty row ready for columns [west, east), in the room it has
// if that will do.
func (s *scanRow) span(west, east int) {
	n := east - west
	if n > cap(s.later) {
		s.later, s.own, s.used = make([]float64, n), make([]float64, n), make([]uint64, (n+63)/64)
	}
	s.west, s.later, s.own, s.used = west, s.later[:n], s.own[:n], s.used[:(n+63)/64]
}

// add adds an edge that lies in this row. Parts west of the
// columns count as if they ran along their western side, parts east of them
// do not count.
func (s *scanRow) add(e edge) {
	left, right := float64(s.west), float64(s.west+len(s.own))
	if e.x0 > e.x1 { // walk eastward; the sums do not depend on the direction
		e.x0, e.y0, e.x1, e.y1 = e.x1, e.y1, e.x0, e.y0
	}
	if e.x1 <= left {
		s.cell(0, 1, float64(math.Abs(e.y1-e.y0)*e.sign))
		return
	}
	if e.x0 >= right {
		return
	}
	slope := 0.0
	if e.x1 > e.x0 {
		slope = (e.y1 - e.y0) / (e.x1 - e.x0)
	}
	x, y := e.x0, e.y0
	if x < left {
		yLeft := e.y0 + float64((left-e.x0)*slope)
		s.cell(0, 1, float64(math.Abs(yLeft-y)*e.sign))
		x, y = left, yLeft
	}
	for col := math.Floor(x); col < right; col++ {
		nextX, nextY := e.x1, e.y1
		if e.x1 > col+1 {
			nextX, nextY = col+1, e.y0+float64((col+1-e.x0)*slope)
		}
		east := 1 - ((x-col)+(nextX-col))/2
		s.cell(int(col)-s.west, east, float64(math.Abs(nextY-y)*e.sign))
		if nextX >= e.x1 {
			break
		}
		x, y = nextX, nextY
	}
}

// cell notes height dy in one column, of which the given part of the column
// lies to the east.
func (s *scanRow) cell(i int, east, dy float64) {
	s.own[i] += float64(dy * east)
	s.later[i] += dy
	s.used[i/64] |= 1 << (i % 64)
}

// tolShare is what rounding may leave of a share that should be 0, or lack of
// one that should be 1.
const tolShare = 1e-13

// flush appends the runs of the row and clears it.
func (s *scanRow) flush(row int, runs []Run) []Run {
	before := len(runs) // those of other rows or, in the same row, of other shapes
	emit := func(from, to int, share float64) {
		switch {
		case from >= to || share < tolShare:
			return
		case share > 1-tolShare:
			share = 1
		}
		run := Run{Row: int32(row), From: int32(from + s.west), To: int32(to + s.west), Share: share}
		if n := len(runs); n > before && runs[n-1].To == run.From && runs[n-1].Share == share {
			runs[n-1].To = run.To
			return
		}
		runs = append(runs, run)
	}
	height, done := 0.0, 0
	for word, mask := range s.used {
		for ; mask != 0; mask &= mask - 1 {
			i := word*64 + bits.TrailingZeros64(mask)
			emit(done, i, settled(height))
			emit(i, i+1, height+s.own[i])
			height += s.later[i]
			s.own[i], s.later[i], done = 0, 0, i+1
		}
		s.used[word] = 0
	}
	emit(done, len(s.own), settled(height))
	return runs
}

// settled returns the share of columns that no slanting edge crosses, without
// what rounding left of it: they are wholly inside or outside, unless an edge
// along a parallel cuts them all.
func settled(height float64) float64 {
	if whole := math.Round(height); math.Abs(height-whole) < 1e-9 {
		return whole
	}
	return height
}
