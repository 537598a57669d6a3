package plane

import (
	"cmp"
	"math"
	"slices"
)

// tenths is a place on the page in tenths of a pixel.
type tenths struct{ x, y int }

func inTenths(p Pixel) tenths {
	return tenths{x: int(math.Round(p.X * 10)), y: int(math.Round(p.Y * 10))}
}

func (t tenths) compare(o tenths) int { return cmp.Or(cmp.Compare(t.x, o.x), cmp.Compare(t.y, o.y)) }

func inPixels(places []tenths) []Pixel {
	out := make([]Pixel, len(places))
	for i, t := range places {
		out[i] = Pixel{X: float64(t.x) / 10, Y: float64(t.y) / 10}
	}
	return out
}

// rounded returns the places of a line without repeats; of a closed one the
// last is not the first.
func rounded(l Line) []tenths {
	places := make([]tenths, 0, len(l.Points))
	for _, q := range l.Points {
		if t := inTenths(q); len(places) == 0 || t != places[len(places)-1] {
			places = append(places, t)
		}
	}
	for l.Closed && len(places) > 1 && places[len(places)-1] == places[0] {
		places = places[:len(places)-1]
	}
	return places
}

// thin returns a line with the fewest places Douglas and Peucker's method
// (1973) keeps within slack. A closed line, whose last place is the first, is
// cut at the place farthest from there.
func thin(places []tenths, slack float64) []tenths {
	n := len(places)
	if n < 3 {
		return places
	}
	keep := make([]bool, n)
	keep[0], keep[n-1] = true, true
	if places[0] == places[n-1] {
		far, _ := farthestFrom(places, 0, n-1)
		keep[far] = true
		keepBetween(places, keep, 0, far, slack)
		keepBetween(places, keep, far, n-1, slack)
	} else {
		keepBetween(places, keep, 0, n-1, slack)
	}
	out := make([]tenths, 0, n/2)
	for i, k := range keep {
		if k {
			out = append(out, places[i])
		}
	}
	return slices.Clip(out)
}

// keepBetween marks the places to keep between two kept ones.
func keepBetween(places []tenths, keep []bool, first, last int, slack float64) {
	if last-first < 2 {
		return
	}
	if i, d2 := farthestFrom(places, first, last); d2 > slack*slack {
		keep[i] = true
		keepBetween(places, keep, first, i, slack)
		keepBetween(places, keep, i, last, slack)
	}
}

// farthestFrom returns the place between two others that is farthest from the
// line that joins them, and the square of its distance.
func farthestFrom(places []tenths, first, last int) (at int, d2 float64) {
	pixel := func(t tenths) Pixel { return Pixel{X: float64(t.x), Y: float64(t.y)} }
	a, b := pixel(places[first]), pixel(places[last])
	at, d2 = first+1, -1
	for i := first + 1; i < last; i++ {
		if d := squareDistance(pixel(places[i]), a, b); d > d2 {
			at, d2 = i, d
		}
	}
	return at, d2
}
