package regions

import (
	"slices"

	"weekband/grid"
)

// scanLines is how many parallels Inside looks along.
const scanLines = 33

// Inside returns a point well inside the region: the middle of the widest
// stretch of it on one of some evenly spaced parallels. For a region without
// area it is the middle of its bounds.
func (r Region) Inside() grid.LonLat {
	best, width := r.Bounds.Center(), 0.0
	for i := range scanLines {
		lat := r.Bounds.South + (r.Bounds.North-r.Bounds.South)*(float64(i)+0.5)/scanLines
		cuts := r.cuts(lat)
		for k := 0; k+1 < len(cuts); k += 2 {
			if w := cuts[k+1] - cuts[k]; w > width {
				best, width = grid.LonLat{Lon: (cuts[k] + cuts[k+1]) / 2, Lat: lat}, w
			}
		}
	}
	return best
}

// cuts returns the longitudes at which the outline crosses a parallel, from
// west to east; the region lies between the first and the second, the third
// and the fourth, and so on.
func (r Region) cuts(lat float64) []float64 {
	var cuts []float64
	for _, polygon := range r.Shape {
		for _, ring := range polygon {
			for i := 1; i < len(ring); i++ {
				a, b := ring[i-1], ring[i]
				if (a[1] > lat) != (b[1] > lat) {
					cuts = append(cuts, a[0]+float64((lat-a[1])/(b[1]-a[1])*(b[0]-a[0])))
				}
			}
		}
	}
	slices.Sort(cuts)
	return cuts
}
