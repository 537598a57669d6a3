package worth

import "math"

// excess is a table of how far soil lies past a base on average, by how far
// its mean lies: E[max(0, x + σZ)], Z standard normal. It is 0 up to -reach
// and x itself from reach on.
//
// The table's chords lie above the curve by excessStep²/12 of its bend on
// average, and the middle of a day whose soil changes by d below the day's mean
// by d²/24 of it: less than 0.01 degree-days in a season.
type excess struct {
	reach float64 // K
	table []entry
}

const (
	excessStep  = 0.0625 // K
	excessReach = 3.0    // σ; past it less than 0.002 degree-days are missed
)

// newExcess returns the table for a σ of sigma K.
func newExcess(sigma float64) excess {
	n := math.Ceil(excessReach * sigma / excessStep)
	e := excess{reach: n * excessStep, table: make([]entry, 2*int(n))}
	at := func(i int) float64 {
		switch x := float64(float64(i)*excessStep) - e.reach; i {
		case 0:
			return 0
		case len(e.table):
			return x
		default:
			return sigma*math.Exp(-x*x/(2*sigma*sigma))/math.Sqrt(2*math.Pi) + float64(x/2*math.Erfc(-x/(sigma*math.Sqrt2)))
		}
	}
	for i := range e.table {
		e.table[i] = entry{value: at(i), rise: at(i+1) - at(i)}
	}
	return e
}

// at returns how far soil lies past the base on average when its mean does by
// x K.
func (e *excess) at(x float64) float64 {
	y := float64((x + e.reach) * (1 / excessStep))
	i := int(y)
	if uint(i) < uint(len(e.table)) {
		return e.table[i].value + float64((y-float64(i))*e.table[i].rise)
	}
	return max(x, 0)
}

// excessOf is the excess of soil over a base in a direction, 1 or −1.
type excessOf struct {
	scale, shift, reach float64
	table               []entry
}

// of returns the excess over a base in °C.
func (e *excess) of(sign, base float64) excessOf {
	const perStep = 1 / excessStep
	return excessOf{float64(sign * perStep), (e.reach - float64(sign*base)) * perStep, e.reach, e.table}
}

// none reports whether soil is too far from the base to count.
func (e *excessOf) none(soil float64) bool { return float64(soil*e.scale)+e.shift <= 0 }

// at returns how far soil lies past the base on average when its mean is a
// temperature in °C.
func (e *excessOf) at(soil float64) float64 {
	y := float64(soil*e.scale) + e.shift
	i := int(y)
	if uint(i) < uint(len(e.table)) {
		return e.table[i].value + float64((y-float64(i))*e.table[i].rise)
	}
	return max(float64(y*excessStep)-e.reach, 0)
}
