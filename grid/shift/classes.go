package shift

import (
	"math"

	"weekband/grid"
	"weekband/grid/classes"
)

// Unit is what the limits of a map's classes count.
type Unit uint8

const (
	Days  Unit = iota // round numbers of days
	Weeks             // steps of weeks, see Scale
)

// within is the least middle class of a map in days, either way: nobody can act
// on less. Ours.
const within = 2.0

// A map counts in weeks when more than a tenth of the ground moved by a week
// and a half, and so by about two weeks. Ours.
const (
	week   = 7.0
	toTell = 1.5 * week
	tenth  = 0.1
)

// Scale is the classes of a map of a shift, in days, alike on both sides of a
// middle one. In weeks the middle reaches from −Step/2 to Step/2 weeks and
// each further class is Step weeks wide, so that it is about a whole number
// of steps.
type Scale struct {
	Unit    Unit
	Step    int // weeks; 0 in days
	Classes []classes.Class
}

// sides is how many classes of weeks there are at most on a side.
const sides = (classes.Max - 1) / 2

// ScaleOf returns the classes for a shift in days, none when no cell has one.
// Where nine tenths of the ground moved by less than a week and a half they are
// those of classes.Around, from two days on; otherwise classes of 1, 2, 4, …
// weeks, the narrowest of which the outermost hold at most a tenth of the
// ground besides their own, and are open only when there is more.
func ScaleOf(days *grid.Raster[float32]) Scale {
	if days.Count() == 0 {
		return Scale{}
	}
	total := farther(days, 0)
	if farther(days, toTell) <= tenth*total {
		return Scale{Unit: Days, Classes: classes.Around(days, within)}
	}
	step := 1
	for farther(days, edge(sides+1, step)) > tenth*total {
		step *= 2
	}
	n := sides
	for n > 1 && farther(days, edge(n, step)) == 0 {
		n--
	}
	return Scale{Unit: Weeks, Step: step, Classes: weekClasses(n, step, farther(days, edge(n+1, step)) > 0)}
}

// edge is the inner limit, in days, of the class that is n steps from the
// middle.
func edge(n, step int) float64 { return (float64(n) - 0.5) * week * float64(step) }

// farther returns the area in km² that moved by at least a number of days
// either way.
func farther(days *grid.Raster[float32], least float64) (km2 float64) {
	for v, area := range days.Areas() {
		if math.Abs(float64(v)) >= least {
			km2 += area
		}
	}
	return km2
}

// weekClasses returns n classes a side about the middle one.
func weekClasses(n, step int, open bool) []classes.Class {
	list := make([]classes.Class, 2*n+1)
	list[n] = classes.Class{From: -edge(1, step), To: edge(1, step)}
	for i := 1; i <= n; i++ {
		from, to := edge(i, step), edge(i+1, step)
		list[n-i] = classes.Class{From: -to, To: -from, OpenBegin: open && i == n}
		list[n+i] = classes.Class{From: from, To: to, OpenEnd: open && i == n}
	}
	return list
}
