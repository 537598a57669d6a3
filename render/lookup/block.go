package lookup

import (
	"fmt"
	"math"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/weeks"
)

// blockCells is the number of cells on a side of a block. Strides of typical
// years divide it.
const blockCells = 64

// beyondBit is set in a cell's reason where no calibration station is near.
const beyondBit = 0x80

// A block of rows × cols cells is, one after the other:
//
//   - for every window, in the order of the index: the marks, one byte a cell,
//     each the reason (with beyondBit) exclusive-or the likely one; then planes
//     of the cells that have a day: the day of the year in parts of a day (2 bytes), and
//     the levels of lead, tail, spread and error (1 byte);
//   - the regions: one byte a cell, 0 for the likely one, 1 for another that is
//     new in the block, 2 for another that is not; then the new ones, 4 bytes
//     each, the lowest first; then the places of the others among those that
//     are, 2 bytes each. Region 0, which is none, is never new;
//   - where the index has typical years: for every square of stride × stride
//     cells 1 or 0, whether it has one; then twelve planes (2 bytes), the mean
//     of January in parts of a °C and by how many the other months are warmer
//     than the month before.
type block struct {
	cell       grid.Cell // the first
	rows, cols int
}

// value is what a block tells of a window at one cell. Days are unwrapped.
type value struct {
	reason        crossing.Reason
	beyond        bool
	day, from, to float64
	spread, error float64
}

// blockAt returns a block of a grid by its row and column among blocks.
func blockAt(rows, cols, row, col, side int) block {
	return block{
		cell: grid.Cell{Row: row * side, Col: col * side},
		rows: min(side, rows-row*side), cols: min(side, cols-col*side),
	}
}

func (b block) plane(bytes int) plane { return plane{rows: b.rows, cols: b.cols, bytes: bytes} }

func (b block) at(i int) grid.Cell {
	return grid.Cell{Row: b.cell.Row + i/b.cols, Col: b.cell.Col + i%b.cols}
}

// packField returns the parts of a field in the block; any is false where it
// tells nothing. The field begins at row origin of the grid.
func (b block) packField(f *weeks.Field, origin, perDay int, s *Scales) (parts [][]byte, any bool) {
	n := b.rows * b.cols
	known, marks, has := make([]byte, n), make([]byte, n), make([]bool, n)
	var planes [5][]int
	for k := range planes {
		planes[k] = make([]int, n)
	}
	for i := range n {
		cell := b.at(i)
		cell.Row -= origin
		reason, ok := f.Reason.At(cell)
		any = any || ok
		known[i] = byte(reason)
		if ok && f.BeyondReach(cell) {
			known[i] |= beyondBit
		}
		marks[i] = known[i] ^ likely(known, b.cols, i)
		day, ok := f.Day.At(cell)
		if has[i] = ok && reason.HasDay(); !has[i] {
			continue
		}
		from, _ := f.OntimeFrom.At(cell)
		to, _ := f.CatchupTo.At(cell)
		spread, _ := f.Spread.At(cell)
		planes[0][i] = int(math.Floor(float64(weeks.DayOfYear(day)) * float64(perDay)))
		planes[1][i] = level(s.Lead, float64(day-from))
		planes[2][i] = level(s.Tail, float64(to-day))
		planes[3][i] = level(s.Spread, float64(spread))
		planes[4][i] = level(s.Error, f.ErrorAt(cell))
	}
	parts = append(parts, marks)
	parts = append(parts, b.plane(2).pack(planes[0], has)...)
	for _, v := range planes[1:] {
		parts = append(parts, b.plane(1).pack(v, has)...)
	}
	return parts, any
}

// takeField unpacks what a window's part at the head of data tells of cell i,
// unwrapped at the window's cut, and returns what follows.
func (b block) takeField(data []byte, i, perDay int, s *Scales, cut season.Day) (v value, rest []byte, err error) {
	marks, data, err := b.takeMarks(data)
	if err != nil {
		return v, nil, err
	}
	has := make([]bool, len(marks))
	for k := range marks {
		has[k] = crossing.Reason(marks[k] &^ beyondBit).HasDay()
	}
	v.reason, v.beyond = crossing.Reason(marks[i]&^beyondBit), marks[i]&beyondBit != 0
	if int(v.reason) >= len(crossing.Reasons) {
		return v, nil, fmt.Errorf("reason %d is none", int(v.reason))
	}
	days, data, err := b.plane(2).take(data, has)
	if err != nil {
		return v, nil, err
	}
	var at [4]float64
	for k, scale := range [...][]float64{s.Lead, s.Tail, s.Spread, s.Error} {
		var levels []int
		if levels, data, err = b.plane(1).take(data, has); err != nil {
			return v, nil, err
		}
		if !v.reason.HasDay() {
			continue
		}
		if levels[i] >= len(scale) {
			return v, nil, fmt.Errorf("level %d, the scale has %d", levels[i], len(scale))
		}
		at[k] = scale[levels[i]]
	}
	if v.reason.HasDay() {
		if v.day = (float64(days[i]) + 0.5) / float64(perDay); v.day < float64(cut) {
			v.day += season.YearDays
		}
		v.from, v.to, v.spread, v.error = v.day-at[0], v.day+at[1], at[2], at[3]
	}
	return v, data, nil
}
