package curve

import (
	"math"

	"weekband/grid/season"
	"weekband/grid/units"
)

// Order is the highest harmonic a Curve holds.
const Order = 6

// Curve is a trigonometric polynomial over the typical year:
//
//	T(x) = Mean + Σ Cos[k−1]·cos kx + Sin[k−1]·sin kx,  k = 1..6
//
// with x = 2πt/365 and t in days from 1 January 0:00. All coefficients are
// in °C. The zero value is 0 °C all year.
type Curve struct {
	Mean float64
	Cos  [Order]float64
	Sin  [Order]float64
}

// At returns the temperature at a moment; any Day is accepted, the curve is
// periodic.
func (c *Curve) At(d season.Day) units.Celsius {
	x := angle(float64(d) - 1)
	t := c.Mean
	for k := range Order {
		s, o := math.Sincos(float64(k+1) * x)
		t += float64(c.Cos[k]*o) + float64(c.Sin[k]*s)
	}
	return units.Celsius(t)
}

// waves returns the sums of the even waves at a moment, the mean with the
// cosines, and of the odd ones, the sines.
func (c *Curve) waves(t *turn) (even, odd float64) {
	even = c.Mean + float64(c.Cos[0]*t[0]) + float64(c.Cos[1]*t[2]) + float64(c.Cos[2]*t[4]) + float64(c.Cos[3]*t[6]) + float64(c.Cos[4]*t[8]) + float64(c.Cos[5]*t[10])
	odd = float64(c.Sin[0]*t[1]) + float64(c.Sin[1]*t[3]) + float64(c.Sin[2]*t[5]) + float64(c.Sin[3]*t[7]) + float64(c.Sin[4]*t[9]) + float64(c.Sin[5]*t[11])
	return even, odd
}

// On returns the curve at 0:00 of a day of the year, 0 for 1 January to 364.
func (c *Curve) On(day int) float64 {
	even, odd := c.waves(&days[day])
	return even + odd
}

// Sample writes the curve at 0:00 of every day into year. Cosines are even
// about 1 January and sines odd, so that two days share one sum of each.
func (c *Curve) Sample(year *Year) {
	year[0] = c.On(0)
	for day := 1; day <= season.YearDays/2; day++ {
		even, odd := c.waves(&days[day])
		year[day], year[season.YearDays-day] = even+odd, even-odd
	}
}

// Year is a typical year of temperatures in °C: element i is the value at
// 0:00 of day i+1, so element 0 is season.Day 1.0. It is periodic: element
// 364 is followed by element 0.
type Year [season.YearDays]float64

// At returns the temperature at any moment, straight between days.
func (y *Year) At(d season.Day) float64 {
	at := float64(d.In()) - 1
	i := int(at)
	return y[i] + float64((at-float64(i))*(y[(i+1)%season.YearDays]-y[i]))
}

// Shift makes the whole year warmer by a number of kelvins.
func (y *Year) Shift(by float64) {
	for i := range y {
		y[i] += by
	}
}

// angle turns days from 1 January 0:00 into radians of the year.
func angle(t float64) float64 { return 2 * math.Pi * t / season.YearDays }
