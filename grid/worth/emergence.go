package worth

import (
	"math"

	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/units"
)

// Emergence is the share of a season's weeds that have come up, as a Gompertz
// curve over soil degree-days:
//
//	share(D) = exp(−A·exp(−B·D))
//
// D counts kelvins past Base, in the trigger's direction, times days.
type Emergence struct {
	Base  float64 // °C
	A, B  float64 // B per kelvin-day
	table []entry
}

// entry is one of an emergence's table: the share, and its rise to the next.
type entry struct{ share, rise float64 }

// step is the distance in degree-days between entries of an emergence's
// table; between them the curve is straight to 4e-6.
const step = 0.5

// full is the share at which a season counts as over.
const full = 0.99995

// through returns the curve that passes 25 % and 75 % at the given
// degree-days.
func through(base, quarter, threeQuarters float64) Emergence {
	low, high := math.Log(4), math.Log(4.0/3)
	b := math.Log(low/high) / (threeQuarters - quarter)
	e := Emergence{Base: base, A: low * math.Exp(b*quarter), B: b}
	for d := 0.0; e.Share(d) <= full; d += step {
		e.table = append(e.table, entry{share: e.Share(d), rise: e.Share(d+step) - e.Share(d)})
	}
	return e
}

var (
	// Summer is the spring germination of summer annuals: base 12 °C, main
	// emergence from 140 to 230 degree-days, after Fidanza, Dernoeden and
	// Zhang 1996 (Crop Sci. 36:990) for smooth crabgrass in Maryland turf.
	// Their curve is a Gompertz curve; its parameters are not printed in the
	// abstract, and these put 25 % and 75 % at the two ends.
	Summer = through(12, 140, 230)

	// Winter is the late-summer and autumn germination of winter annuals,
	// counted in degree-days below 21.1 °C. It is ours, laid through the
	// phases that Kaminski and Dernoeden 2007 (Crop Sci. 47:775) saw in
	// Maryland (50 to 70 % between late September and mid-October, peak in
	// early October), and is no published curve.
	Winter = through(float64(units.F.Celsius(70)), 35, 150)
)

// For returns the emergence that belongs to a direction.
func For(d crossing.Direction) *Emergence {
	if d == crossing.Cooling {
		return &Winter
	}
	return &Summer
}

// Share returns the emerged share, 0 to 1, at degree-days d >= 0. The
// little the Gompertz curve holds at 0 is taken off, so that Share(0) is 0.
func (e Emergence) Share(d float64) float64 {
	none := math.Exp(-e.A)
	return (math.Exp(-e.A*math.Exp(-e.B*d)) - none) / (1 - none)
}

// emerged holds the share that has come up by the beginning of day i of a
// season as element i+1, from the day before its first weeds to its end.
type emerged [season.YearDays + 2]float64

// run works out a season's emergence from a soil year that begins at 0:00 of
// its day 0 and changes evenly between samples. Weeds come up on days
// [begin, end): none before, and none later because the season is over or the
// year is. Without degree-days begin is end.
func (e *Emergence) run(soil *[season.YearDays + 1]float64, d crossing.Direction, up *emerged) (begin, end int) {
	sign := 1.0
	if d == crossing.Cooling {
		sign = -1
	}
	base := sign * e.Base
	if sign*soil[0] <= base {
		for begin < season.YearDays && sign*soil[begin+1] <= base {
			begin++
		}
	}
	up[begin], up[begin+1] = 0, 0
	twice := 0.0 // the degree-days so far: with step, the place in the table
	table := e.table
	before := sign*soil[begin] - base
	for i := begin; i < season.YearDays; i++ {
		after := sign*soil[i+1] - base
		if before >= 0 && after >= 0 {
			twice += before + after
		} else if past := max(before, after); past > 0 { // the base is passed during the day
			twice += past * past / math.Abs(after-before)
		}
		before = after
		k := int(twice)
		if uint(k) >= uint(len(table)) {
			up[i+2] = 1
			return begin, i + 1
		}
		up[i+2] = table[k].share + (twice-float64(k))*table[k].rise
	}
	return begin, season.YearDays
}
