package shift

import (
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
)

// Layer is the crossing of a window on a grid. Both rasters share it.
type Layer struct {
	Day *grid.Raster[float32] // unwrapped or of the year; a value where there is a day
	// Reason says why a cell has a day or none; no value where there are no
	// normals. nil when it is not known: then ground without a day counts as
	// having the reason of the other layer where that has no day either, and as
	// ground without normals elsewhere.
	Reason *grid.Raster[crossing.Reason]
}

// reasons returns those of a cell in two layers.
func reasons(before, after Layer, c grid.Cell) (was, is crossing.Reason) {
	was, is = before.reason(c), after.reason(c)
	switch {
	case before.Reason == nil && was == crossing.NoData && !is.HasDay():
		was = is
	case after.Reason == nil && is == crossing.NoData && !was.HasDay():
		is = was
	}
	return was, is
}

// reason returns that of a cell; a day counts more than what Reason says.
func (l Layer) reason(c grid.Cell) crossing.Reason {
	if _, ok := l.Day.At(c); ok {
		return crossing.Dated
	}
	if l.Reason == nil {
		return crossing.NoData
	}
	why, _ := l.Reason.At(c)
	if why.HasDay() {
		return crossing.NoData // a day is promised that is not there
	}
	return why
}

// Finer returns of two grids the one with the smaller cells, the second of
// equal ones.
func Finer(a, b grid.Grid) grid.Grid {
	const hair = 1e-6 // headers round differently
	if a.StepLon()*a.StepLat() < b.StepLon()*b.StepLat()*(1-hair) {
		return a
	}
	return b
}

// Onto returns the layer on another grid: each cell takes what the layer's cell
// under its centre has, and nothing where there is none. Days are not
// interpolated, so that each stays the day of some cell.
func (l Layer) Onto(g grid.Grid) Layer {
	from := l.Day.Grid()
	if from.Matches(g) {
		return l
	}
	out := Layer{Day: grid.NewRaster[float32](g)}
	if l.Reason != nil {
		out.Reason = grid.NewRaster[crossing.Reason](g)
	}
	for row := range g.Rows() {
		for col := range g.Cols() {
			to := grid.Cell{Row: row, Col: col}
			under, ok := from.Locate(g.Center(to))
			if !ok {
				continue
			}
			if day, ok := l.Day.At(under); ok {
				out.Day.Set(to, day)
			}
			if l.Reason == nil {
				continue
			}
			if why, ok := l.Reason.At(under); ok {
				out.Reason.Set(to, why)
			}
		}
	}
	return out
}

// WeeksLater returns by how many of the year's 52 weeks b comes after a, by
// the shorter way around New Year: −26 to 25.
func WeeksLater(a, b season.Week) int {
	later := (int(b-a)%season.Weeks + season.Weeks) % season.Weeks
	if later >= season.Weeks/2 {
		later -= season.Weeks
	}
	return later
}
