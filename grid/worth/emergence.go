package worth

import (
	"math"

	"weekband/grid/crossing"
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
	table []float64
}

// step is the distance in degree-days between entries of an emergence's
// table; between them the curve is straight to 1e-5.
const step = 0.5

// full is the share at which a season counts as over.
const full = 0.9999

// through returns the curve that passes 25 % and 75 % at the given
// degree-days.
func through(base, quarter, threeQuarters float64) Emergence {
	low, high := math.Log(4), math.Log(4.0/3)
	b := math.Log(low/high) / (threeQuarters - quarter)
	e := Emergence{Base: base, A: low * math.Exp(b*quarter), B: b}
	for d := 0.0; len(e.table) == 0 || e.table[len(e.table)-1] <= full; d += step {
		e.table = append(e.table, e.Share(d))
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

// tabled is Share from the table: 1 once the season is over.
func (e *Emergence) tabled(d float64) float64 {
	at := d / step
	i := int(at)
	if i+1 >= len(e.table) {
		return 1
	}
	return e.table[i] + (at-float64(i))*(e.table[i+1]-e.table[i])
}
