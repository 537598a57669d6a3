package lookup

import (
	"fmt"

	"weekband/grid"
	"weekband/grid/crossing"
)

// Reasons reads all shards and returns, one raster a window, why each cell has
// a day or none, as the reasons of a week field are: a cell without normals has
// no value.
func (e *Edition) Reasons() ([]*grid.Raster[crossing.Reason], error) {
	out := make([]*grid.Raster[crossing.Reason], len(e.Windows))
	for i := range out {
		out[i] = grid.NewRaster[crossing.Reason](e.grid)
	}
	for row := range e.Shards {
		for col := range e.Shards[row] {
			if !e.has(row, col) {
				continue
			}
			if err := e.addReasons(out, row, col); err != nil {
				return nil, err
			}
		}
	}
	return out, nil
}

// addReasons adds those of one block.
func (e *Edition) addReasons(to []*grid.Raster[crossing.Reason], row, col int) error {
	if row*e.Side >= e.Grid.Rows || col*e.Side >= e.Grid.Cols {
		return damaged(row, col, fmt.Errorf("it lies off the grid of %d × %d cells", e.Grid.Rows, e.Grid.Cols))
	}
	data, err := e.shard(row, col)
	if err != nil {
		return err
	}
	b := blockAt(e.Grid.Rows, e.Grid.Cols, row, col, e.Side)
	for _, r := range to {
		var reasons []crossing.Reason
		if reasons, data, err = b.takeReasons(data); err != nil {
			return damaged(row, col, err)
		}
		for i, why := range reasons {
			if why != crossing.NoData {
				r.Set(b.at(i), why)
			}
		}
	}
	return nil
}

// dayBytes is what a window tells of a cell that has a day besides its mark:
// the day and four levels.
const dayBytes = 2 + 4

// takeReasons unpacks only the reasons of a window's part at the head of data,
// and returns what follows that part.
func (b block) takeReasons(data []byte) (reasons []crossing.Reason, rest []byte, err error) {
	marks, rest, err := b.takeMarks(data)
	if err != nil {
		return nil, nil, err
	}
	dated := 0
	reasons = make([]crossing.Reason, len(marks))
	for i, mark := range marks {
		reasons[i] = crossing.Reason(mark &^ beyondBit)
		if int(reasons[i]) >= len(crossing.Reasons) {
			return nil, nil, fmt.Errorf("reason %d is none", int(reasons[i]))
		}
		if reasons[i].HasDay() {
			dated++
		}
	}
	if len(rest) < dated*dayBytes {
		return nil, nil, errShort
	}
	return reasons, rest[dated*dayBytes:], nil
}

// takeMarks unpacks the marks at the head of data, one a cell.
func (b block) takeMarks(data []byte) (marks, rest []byte, err error) {
	n := b.rows * b.cols
	if len(data) < n {
		return nil, nil, errShort
	}
	marks = make([]byte, n)
	for i := range marks {
		marks[i] = data[i] ^ likely(marks, b.cols, i)
	}
	return marks, data[n:], nil
}
