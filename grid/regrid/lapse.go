package regrid

import (
	"weekband/grid"
)

// usualLapse is the change of near-surface mean temperature with height, in
// K/m: between the 3.9 to 5.2 K/km that Minder, Mote and Lundquist 2010 found
// for the year in the Cascades and the 6.5 of the standard atmosphere
// (ISO 2533).
const usualLapse = -0.0055

// Bounds of the local lapse rate in K/m: the dry adiabat, and a mild
// inversion.
const (
	steepest = -0.0098
	inverted = 0.002
)

// lapseReach is how many cells on each side count for the local rate.
const lapseReach = 3

// lapseDoubt says how strongly the usual rate pulls on the local one: as much
// as neighbours whose heights differ with a variance of 150² m² do.
const lapseDoubt = 150 * 150

// lapseRate returns the local change of temperature with height, in K/m: the
// slope of the regression of temperature on height over the cells around one
// that have both, drawn to the usual rate where the ground is flat and bounded
// to what air does. vals and has are rows × cols of a block; height is the
// mean height of every cell of it.
func lapseRate(vals []float32, has []bool, height []float32, rows, cols, row, col int) float64 {
	n, sumT, sumZ := 0.0, 0.0, 0.0
	each := func(visit func(t, z float64)) {
		for r := max(row-lapseReach, 0); r <= min(row+lapseReach, rows-1); r++ {
			for c := max(col-lapseReach, 0); c <= min(col+lapseReach, cols-1); c++ {
				if i := r*cols + c; has[i] {
					visit(float64(vals[i]), float64(height[i]))
				}
			}
		}
	}
	each(func(t, z float64) { n++; sumT += t; sumZ += z })
	if n == 0 {
		return usualLapse
	}
	meanT, meanZ := sumT/n, sumZ/n
	covariance, variance := 0.0, 0.0
	each(func(t, z float64) {
		covariance += float64((t - meanT) * (z - meanZ))
		variance += float64((z - meanZ) * (z - meanZ))
	})
	rate := (covariance/n + usualLapse*lapseDoubt) / (variance/n + lapseDoubt)
	return min(max(rate, steepest), inverted)
}

// heights returns the mean terrain height of rows [first, first+rows) of g,
// 0 where the terrain has none: coarse cells at sea level.
func heights(terrain *grid.Raster[float32], first, rows int) []float32 {
	cols := terrain.Grid().Cols()
	out := make([]float32, rows*cols)
	for row := range rows {
		vals, has := terrain.Row(first + row)
		for col, ok := range has {
			if ok {
				out[row*cols+col] = vals[col]
			}
		}
	}
	return out
}
