package classes

import (
	"math"

	"weekband/grid"
)

// beyond is the share of the area that the two outermost classes of Around
// may hold together; with more the limits move out.
const beyond = 0.1

// Around returns an odd number of classes, at most Max, that lie alike on both
// sides of zero and hold every value of a raster: a middle one from -m to m
// and up to three a side, whose limits follow the series 1, 2, 5, 10. m is the
// smallest number of that series, from within on, that leaves at most a tenth
// of the area to the outermost classes. Of these the outermost are open when
// there are three a side; pairs that hold nothing are left out. No value gives no
// classes; within must be positive.
func Around(r *grid.Raster[float32], within float64) []Class {
	limits := around(r, within)
	if limits == nil {
		return nil
	}
	n := len(limits) - 1
	sides := n
	for sides > 0 && !holds(r, func(v float64) bool { return v < -limits[sides-1] || v >= limits[sides-1] }) {
		sides--
	}
	list := make([]Class, 2*sides+1)
	list[sides] = Class{From: -limits[0], To: limits[0]}
	for i := range sides {
		from, to := limits[i], limits[i+1]
		list[sides-1-i] = Class{From: -to, To: -from, OpenBegin: i == n-1}
		list[sides+1+i] = Class{From: from, To: to, OpenEnd: i == n-1}
	}
	return list
}

// around returns the limits on one side: the middle's, the two next, and that
// at which the open class would end.
func around(r *grid.Raster[float32], within float64) []float64 {
	if r.Count() == 0 {
		return nil
	}
	for m := roundFrom(within); ; m = m.next() {
		a, b := m.next(), m.next().next()
		far, total := 0.0, 0.0
		for v, area := range r.Areas() {
			total += area
			if math.Abs(float64(v)) >= b.times(1) {
				far += area
			}
		}
		if far <= beyond*total {
			return []float64{m.times(1), a.times(1), b.times(1), b.next().times(1)}
		}
	}
}

// holds reports whether any value is as asked.
func holds(r *grid.Raster[float32], is func(float64) bool) bool {
	for _, v := range r.All() {
		if is(float64(v)) {
			return true
		}
	}
	return false
}
