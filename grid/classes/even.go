package classes

import (
	"math"

	"weekband/grid"
)

// tail is the share of the area, at either end of the values, that an open
// class may hold so that the others can be narrower: that of weeks.Bands.
const tail = 0.02

// round is a number with one digit, 1, 2 or 5 times a power of ten.
type round struct{ digit, power int }

// times returns n times the number, rounded once.
func (r round) times(n int) float64 {
	if r.power < 0 {
		return float64(n*r.digit) / math.Pow10(-r.power)
	}
	return float64(n*r.digit) * math.Pow10(r.power)
}

func (r round) next() round {
	switch r.digit {
	case 1:
		return round{2, r.power}
	case 2:
		return round{5, r.power}
	}
	return round{1, r.power + 1}
}

// roundFrom returns the smallest round number that is at least v, which must
// be positive.
func roundFrom(v float64) round {
	r := round{1, int(math.Floor(math.Log10(v))) - 1}
	for r.times(1) < v {
		r = r.next()
	}
	return r
}

// Even returns at most Max classes of one width that hold every value of a
// raster: the narrowest of 1, 2 or 5 times a power of ten, from least on,
// with which they suffice. Limits are multiples of the width. The first and
// the last class may be open, each with at most 2 % of the area besides their
// own. No value gives no classes; least must be positive.
func Even(r *grid.Raster[float32], least float64) []Class {
	d := newDistribution(r)
	if !d.any {
		return nil
	}
	ends := d.quantiles(tail, 1-tail)
	width := roundFrom(least)
	first, last := span(ends, width)
	for last-first+1 > Max {
		width = width.next()
		first, last = span(ends, width)
	}
	var list []Class
	for n := first; n <= last; n++ {
		list = append(list, Class{From: width.times(n), To: width.times(n + 1)})
	}
	list[0].OpenBegin = float64(d.low) < list[0].From
	final := &list[len(list)-1]
	final.OpenEnd = float64(d.high) >= final.To
	return list
}

// span returns the numbers of the classes of a width that hold the ends.
func span(ends []float64, width round) (first, last int) {
	first = int(math.Floor(ends[0] / width.times(1)))
	last = int(math.Floor(ends[1] / width.times(1)))
	return first, max(first, last)
}
