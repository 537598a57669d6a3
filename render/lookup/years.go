package lookup

import (
	"encoding/binary"
	"fmt"
	"io/fs"
	"os"
	"path"

	"weekband/grid"
	"weekband/grid/curve"
	"weekband/grid/weeks"
)

// yearDir holds the tiles of typical years.
const yearDir = tileDir + "/year"

// Years says where the typical years are: tiles over blocks of Stride × Stride
// cells. A tile holds, for up to Tile × Tile blocks row by row, twelve planes
// of little-endian int16: the monthly means at the edition's depth in
// hundredths of a °C, January first; noYear where a block has none.
type Years struct {
	Stride int      `json:"stride"`
	Rows   int      `json:"rows"`
	Cols   int      `json:"cols"`
	Tiles  [][2]int `json:"tiles"`
}

const noYear = -32768

func yearName(row, col int) string { return fmt.Sprintf("%s/%d-%d.bin", yearDir, row, col) }

// writeYears writes the tiles of typical years.
func writeYears(root *os.Root, y *weeks.Years) (Years, error) {
	g := y.Blocks.Grid()
	out := Years{Stride: y.Stride, Rows: g.Rows(), Cols: g.Cols()}
	if err := root.MkdirAll(yearDir, 0o755); err != nil {
		return out, fmt.Errorf("lookup years: %w", err)
	}
	for row := 0; row*tileCells < g.Rows(); row++ {
		for col := 0; col*tileCells < g.Cols(); col++ {
			data, any := encodeYears(y, row, col)
			if !any {
				continue
			}
			if err := root.WriteFile(yearName(row, col), data, 0o644); err != nil {
				return out, fmt.Errorf("lookup years: %w", err)
			}
			out.Tiles = append(out.Tiles, [2]int{row, col})
		}
	}
	return out, nil
}

func encodeYears(y *weeks.Years, row, col int) (data []byte, any bool) {
	g := y.Blocks.Grid()
	rows := min(tileCells, g.Rows()-row*tileCells)
	cols := min(tileCells, g.Cols()-col*tileCells)
	n := rows * cols
	data = make([]byte, 2*12*n)
	for i := range n {
		months, ok := y.Blocks.At(grid.Cell{Row: row*tileCells + i/cols, Col: col*tileCells + i%cols})
		any = any || ok
		for m, v := range months {
			if !ok {
				v = noYear
			}
			binary.LittleEndian.PutUint16(data[2*(m*n+i):], uint16(v))
		}
	}
	return data, any
}

// Year writes the typical year of temperatures at a point into year, moved as
// a whole so that it crosses on the answer's day where that has one; ok is
// false where no typical year is known.
func (e *Edition) Year(p grid.LonLat, a *Answer, year *curve.Year) (ok bool, err error) {
	cell, inside := e.grid.Locate(p)
	if !inside || e.Years.Stride < 1 {
		return false, nil
	}
	months, ok, err := e.months(cell.Row/e.Years.Stride, cell.Col/e.Years.Stride)
	if !ok || err != nil {
		return false, err
	}
	months.Year(year)
	if !a.Reason.HasDay() {
		return true, nil
	}
	year.Shift(float64(a.Window.Trigger.Level) - year.At(a.Day))
	return true, nil
}

// months reads the typical year of a block.
func (e *Edition) months(row, col int) (m weeks.Months, ok bool, err error) {
	tr, tc := row/e.Tile, col/e.Tile
	if !has(e.Years.Tiles, tr, tc) {
		return m, false, nil
	}
	name := yearName(tr, tc)
	data, err := fs.ReadFile(e.fsys, name)
	if err != nil {
		return m, false, fmt.Errorf("lookup: %w; build the edition again", err)
	}
	rows, cols := min(e.Tile, e.Years.Rows-tr*e.Tile), min(e.Tile, e.Years.Cols-tc*e.Tile)
	n := rows * cols
	if len(data) != 2*12*n {
		return m, false, fmt.Errorf("%s: %d bytes, want %d; build the edition again", path.Base(name), len(data), 2*12*n)
	}
	i := (row-tr*e.Tile)*cols + col - tc*e.Tile
	for k := range m {
		m[k] = int16(binary.LittleEndian.Uint16(data[2*(k*n+i):]))
	}
	return m, m[0] != noYear, nil
}
