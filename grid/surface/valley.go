package surface

import (
	"math"

	"weekband/grid"
)

// spread replaces the lowest and highest cell of every block by those within
// floorKm, and gives blocks of sea those of the coast in reach.
func (l *Land) spread() {
	rows, cols := l.blocks.Rows(), l.blocks.Cols()
	down := int(math.Round(floorKm / (l.blocks.StepLat() * grid.KmPerDegree)))
	low, high, has := make([]float32, len(l.low)), make([]float32, len(l.low)), make([]bool, len(l.low))
	pass := func(line, step, n, reach int) {
		for i := range n {
			k := line + i*step
			has[k] = false
			for j := max(0, i-reach); j <= min(n-1, i+reach); j++ {
				q := line + j*step
				if !l.has[q] {
					continue
				}
				if !has[k] {
					low[k], high[k], has[k] = l.low[q], l.high[q], true
				}
				low[k], high[k] = min(low[k], l.low[q]), max(high[k], l.high[q])
			}
		}
	}
	for row := range rows {
		pass(row*cols, 1, cols, int(math.Round(floorKm/l.blockWidth(row))))
	}
	l.low, low, l.high, high, l.has, has = low, l.low, high, l.high, has, l.has
	for col := range cols {
		pass(col, cols, rows, down)
	}
	l.low, l.high, l.has = low, high, has
}

// blockWidth returns the width of the blocks of a row in km, at least a
// tenth of their height so that rows at the poles stay finite.
func (l *Land) blockWidth(row int) float64 {
	lat := l.blocks.Box().North - float64((float64(row)+0.5)*l.blocks.StepLat())
	height := l.blocks.StepLat() * grid.KmPerDegree
	return max(l.blocks.StepLon()*grid.KmPerDegree*math.Cos(lat*math.Pi/180), height/10)
}
