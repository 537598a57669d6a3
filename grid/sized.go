package grid

import "math"

// Sized returns the grid that fills box with cells as near as whole numbers
// allow to stepLon × stepLat degrees, both positive. Errors are those of New.
func Sized(box Box, stepLon, stepLat float64) (Grid, error) {
	count := func(extent, step float64) int {
		n := math.Round(extent / step)
		if !(n < maxCells) { // too many, or a step of nothing: New says so
			return maxCells
		}
		return max(1, int(n))
	}
	return New(box, count(box.North-box.South, stepLat), count(box.East-box.West, stepLon))
}

// SizedKm is Sized with cells km × km wide in the middle of the box.
func SizedKm(box Box, km float64) (Grid, error) {
	lat := km / KmPerDegree
	return Sized(box, lat/math.Cos(box.Center().Lat*radian), lat)
}
