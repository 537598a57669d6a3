package regrid

import (
	"math"

	"weekband/grid"
)

// Raster returns src on another grid. Where cells grow (see grows), a cell gets
// the mean of the cells of src whose centres it holds, weighted by their area.
// Otherwise, and where it holds none, it gets the bilinear interpolation of
// the four cells around its centre, over those that have a value, but no value
// when the cell of src that holds the centre has none.
func Raster(src *grid.Raster[float32], onto grid.Grid) *grid.Raster[float32] {
	out := grid.NewRaster[float32](onto)
	weights := make([]float64, onto.Cells())
	var sums []float64
	if grows(src.Grid(), onto) {
		sums, weights = pooled(src, onto)
	}
	for row := range onto.Rows() {
		vals, has := out.Row(row)
		for col := range vals {
			if i := row*onto.Cols() + col; weights[i] > 0 {
				vals[col], has[col] = float32(sums[i]/weights[i]), true
				continue
			}
			vals[col], has[col] = bilinear(src, onto.Center(grid.Cell{Row: row, Col: col}))
		}
	}
	return out
}

// grows reports whether cells become more than one and a half times as wide
// and as high.
func grows(from, onto grid.Grid) bool {
	return onto.StepLat() > 1.5*from.StepLat() && onto.StepLon() > 1.5*from.StepLon()
}

// pooled sums the values of src, weighted by area, per cell of another grid.
func pooled(src *grid.Raster[float32], onto grid.Grid) (sums, weights []float64) {
	sums, weights = make([]float64, onto.Cells()), make([]float64, onto.Cells())
	from := src.Grid()
	for row := range from.Rows() {
		vals, has := src.Row(row)
		area := from.CellArea(row)
		for col, ok := range has {
			if !ok {
				continue
			}
			to, inside := onto.Locate(from.Center(grid.Cell{Row: row, Col: col}))
			if inside {
				i := to.Row*onto.Cols() + to.Col
				sums[i] += float64(area * float64(vals[col]))
				weights[i] += area
			}
		}
	}
	return sums, weights
}

func bilinear(src *grid.Raster[float32], p grid.LonLat) (float32, bool) {
	cell, inside := src.Grid().Locate(p)
	if !inside {
		return 0, false
	}
	if _, ok := src.At(cell); !ok {
		return 0, false
	}
	sum, weight := 0.0, 0.0
	for _, n := range around(src.Grid(), p) {
		if v, ok := src.At(n.cell); ok {
			sum += float64(n.weight * float64(v))
			weight += n.weight
		}
	}
	return float32(sum / weight), weight > 0
}

// neighbour is a cell with its share in a bilinear interpolation.
type neighbour struct {
	cell   grid.Cell
	weight float64
}

// around returns the four cells whose centres surround a point. Beyond the
// outermost centres the nearest ones stand in.
func around(g grid.Grid, p grid.LonLat) [4]neighbour {
	row, col := g.Position(p)
	row, col = row-0.5, col-0.5 // from the first centre
	r, c := math.Floor(row), math.Floor(col)
	fr, fc := row-r, col-c
	at := func(dr, dc int, weight float64) neighbour {
		return neighbour{
			cell:   grid.Cell{Row: clamp(int(r)+dr, g.Rows()), Col: clamp(int(c)+dc, g.Cols())},
			weight: weight,
		}
	}
	return [4]neighbour{
		at(0, 0, (1-fr)*(1-fc)), at(0, 1, (1-fr)*fc), at(1, 0, fr*(1-fc)), at(1, 1, fr*fc),
	}
}

func clamp(i, n int) int { return min(max(i, 0), n-1) }
