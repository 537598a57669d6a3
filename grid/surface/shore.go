package surface

import (
	"math"

	"weekband/grid"
)

// measureShore finds the distance from every block to the nearest one without
// elevation, by two sweeps of a chamfer mask with steps to the eight
// neighbours (Borgefors 1986): ways along them are exact, those between up to
// 8 % too long where blocks are square, 11 % at 45° of latitude. The edge of the
// terrain is not a shore.
func (l *Land) measureShore() {
	rows, cols := l.blocks.Rows(), l.blocks.Cols()
	height := l.blocks.StepLat() * grid.KmPerDegree
	l.shore = make([]float32, len(l.has))
	for k, land := range l.has {
		if land {
			l.shore[k] = seaKm
		}
	}
	relax := func(row, col, dr, dc int, km float64) {
		r, c := row+dr, col+dc
		if r >= 0 && r < rows && c >= 0 && c < cols {
			l.shore[row*cols+col] = min(l.shore[row*cols+col], l.shore[r*cols+c]+float32(km))
		}
	}
	sweep := func(row, dir int) {
		width := l.blockWidth(row)
		slant := math.Hypot(width, height)
		for i := range cols {
			col := i
			if dir < 0 {
				col = cols - 1 - i
			}
			relax(row, col, 0, -dir, width)
			relax(row, col, -dir, 0, height)
			relax(row, col, -dir, -1, slant)
			relax(row, col, -dir, 1, slant)
		}
	}
	for row := range rows {
		sweep(row, 1)
	}
	for row := range rows {
		sweep(rows-1-row, -1)
	}
}
