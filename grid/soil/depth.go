package soil

import (
	"math"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

// DefaultDiffusivity is the thermal diffusivity of moist loam under turf in
// m²/s; tables of soil properties give 0.4e-6 to 0.8e-6.
const DefaultDiffusivity = 0.5e-6

const secondsPerDay = 86400

// DampingDepth returns the depth in m at which a temperature wave with the
// given period in days has shrunk to 1/e: √(2κ/ω), ω = 2π/period, after
// Hillel 1982, Introduction to Soil Physics. Diffusivity κ is in m²/s.
func DampingDepth(diffusivity, periodDays float64) float64 {
	return math.Sqrt(diffusivity * periodDays * secondsPerDay / math.Pi)
}

// conducted is how many harmonics of the year conduction acts on; the rest
// of a smooth year is far below a hundredth of a degree.
const conducted = 12

// Conduction moves a year of soil temperatures from one depth to another by
// heat conduction in uniform soil: every harmonic shrinks by exp(−Δz/d) and
// comes Δz/d radians later, d its damping depth; upward both are undone.
// The annual mean stays. The zero value changes nothing.
type Conduction struct {
	active bool
	re, im [conducted]float64 // factor of harmonic k+1, less 1
}

// NewConduction returns the conduction between two depths in soil of the
// given diffusivity in m²/s. Depths closer than 5 mm are taken as equal, as
// 4 in and 10 cm are.
func NewConduction(from, to units.Metres, diffusivity float64) Conduction {
	dz := float64(to - from)
	if math.Abs(dz) < 0.005 {
		return Conduction{}
	}
	c := Conduction{active: true}
	for k := range conducted {
		u := dz / DampingDepth(diffusivity, season.YearDays/float64(k+1))
		s, o := math.Sincos(-u)
		c.re[k], c.im[k] = float64(math.Exp(-u)*o)-1, math.Exp(-u)*s
	}
	return c
}

// Active reports whether the conduction changes anything.
func (c *Conduction) Active() bool { return c.active }

// Apply changes the year in place.
func (c *Conduction) Apply(year *curve.Year) {
	if !c.active {
		return
	}
	var re, im [conducted]float64 // what to add, as amplitudes of cos and sin
	for k := range conducted {
		var a, b float64
		for i, t := range year {
			w := &dayWaves[(k+1)*i%season.YearDays] // of k+1 times the angle
			a += float64(t * w[0])
			b += float64(t * w[1])
		}
		a, b = 2*a/season.YearDays, 2*b/season.YearDays
		// a cos + b sin is the real part of (a − ib)·e^(ikx).
		re[k] = float64(a*c.re[k]) + float64(b*c.im[k])
		im[k] = float64(b*c.re[k]) - float64(a*c.im[k])
	}
	for i := range year {
		for k := range conducted {
			w := &dayWaves[(k+1)*i%season.YearDays] // of k+1 times the angle
			year[i] += float64(re[k]*w[0]) + float64(im[k]*w[1])
		}
	}
}
