package lookup

import (
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"path"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/weeks"
)

// tileCells is the number of cells on a side of a tile.
const tileCells = 64

// A tile holds, for up to tileCells × tileCells cells row by row, six planes
// one after the other: the reason, one byte, with beyondBit set where no
// calibration station is near; the day, on time's begin and catching up's end,
// each a little-endian int16 in tenths of a day; the spread and the standard
// error of the day, one byte each in quarters of a day. Cells without a day
// hold zeros, and so do errors that are not known.
const (
	bytesPerCell = 1 + 3*2 + 2
	beyondBit    = 0x80
)

// Write writes the index and the tiles of the fields under root, filling in
// the index's Format, Grid, Tile and Windows. The fields must share a grid.
func Write(root *os.Root, x Index, fields []*weeks.Field) error {
	x.Format, x.Tile = format, tileCells
	for _, f := range fields {
		g := f.Grid()
		box := g.Box()
		x.Grid = Extent{West: box.West, South: box.South, East: box.East, North: box.North, Rows: g.Rows(), Cols: g.Cols()}
		tiles, err := writeTiles(root, f)
		if err != nil {
			return err
		}
		w := windowOf(&f.Window)
		w.Cut, w.Tiles = f.Cut, tiles
		x.Windows = append(x.Windows, w)
	}
	if len(fields) > 0 && fields[0].Common != nil && fields[0].Typical != nil {
		var err error
		if x.Years, err = writeYears(root, fields[0].Typical); err != nil {
			return err
		}
	}
	return writeIndex(root, &x)
}

// writeTiles writes the tiles that hold any cell with normals and returns
// their rows and columns.
func writeTiles(root *os.Root, f *weeks.Field) (tiles [][2]int, err error) {
	if err := root.MkdirAll(path.Join(tileDir, f.Window.ID), 0o755); err != nil {
		return nil, fmt.Errorf("lookup tiles: %w", err)
	}
	g := f.Grid()
	for row := 0; row*tileCells < g.Rows(); row++ {
		for col := 0; col*tileCells < g.Cols(); col++ {
			data, any := encodeTile(f, row, col)
			if !any {
				continue
			}
			if err := root.WriteFile(tileName(f.Window.ID, row, col), data, 0o644); err != nil {
				return nil, fmt.Errorf("lookup tiles: %w", err)
			}
			tiles = append(tiles, [2]int{row, col})
		}
	}
	return tiles, nil
}

func encodeTile(f *weeks.Field, row, col int) (data []byte, any bool) {
	g := f.Grid()
	rows := min(tileCells, g.Rows()-row*tileCells)
	cols := min(tileCells, g.Cols()-col*tileCells)
	n := rows * cols
	data = make([]byte, n*bytesPerCell)
	for i := range n {
		cell := grid.Cell{Row: row*tileCells + i/cols, Col: col*tileCells + i%cols}
		reason, ok := f.Reason.At(cell)
		if !ok {
			continue
		}
		any = true
		data[i] = byte(reason)
		if f.BeyondReach(cell) {
			data[i] |= beyondBit
		}
		if !reason.HasDay() {
			continue
		}
		day, _ := f.Day.At(cell)
		from, _ := f.OntimeFrom.At(cell)
		to, _ := f.CatchupTo.At(cell)
		for plane, v := range [...]float32{day, from, to} {
			binary.LittleEndian.PutUint16(data[n+2*(plane*n+i):], uint16(int16(math.Round(float64(v)*10))))
		}
		spread, _ := f.Spread.At(cell)
		for plane, v := range [...]float64{float64(spread), f.ErrorAt(cell)} {
			data[(7+plane)*n+i] = byte(math.Round(min(v*4, 255)))
		}
	}
	return data, any
}

// tileValue is one cell of a tile.
type tileValue struct {
	reason        crossing.Reason
	beyond        bool
	day, from, to float64
	spread, error float64
}

// decodeTile returns cell i of a tile of n cells.
func decodeTile(data []byte, n, i int) (tileValue, error) {
	if len(data) != n*bytesPerCell {
		return tileValue{}, fmt.Errorf("%d bytes, want %d; build the edition again", len(data), n*bytesPerCell)
	}
	reason := data[i] &^ beyondBit
	if int(reason) >= len(crossing.Reasons) {
		return tileValue{}, fmt.Errorf("reason %d is none; build the edition again", reason)
	}
	plane := func(p int) float64 {
		return float64(int16(binary.LittleEndian.Uint16(data[n+2*(p*n+i):]))) / 10
	}
	return tileValue{
		reason: crossing.Reason(reason), beyond: data[i]&beyondBit != 0,
		day: plane(0), from: plane(1), to: plane(2),
		spread: float64(data[7*n+i]) / 4, error: float64(data[8*n+i]) / 4,
	}, nil
}
