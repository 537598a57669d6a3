package calibration

import (
	"math"

	"weekband/grid"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/units"
)

// Station is one line of a Table: what soil at soil.OffsetDepth is warmer than
// lagged air at one place.
type Station struct {
	ID, Name  string
	At        grid.LonLat
	Elevation float64       // m
	Coldest   units.Celsius // the lowest temperature of the typical year of air
	Offset    soil.Offset   // K
	StdErr    soil.Offset   // standard errors of the five coefficients from year to year, K
	Years     float64       // days with both air and soil, in years
	Residual  float64       // root mean square of what the five terms leave of the typical year, K
}

// terms is the number of coefficients of a soil.Offset.
const terms = 5

// coefficients are those of a soil.Offset in its order.
type coefficients [terms]float64

func coefficientsOf(o soil.Offset) coefficients {
	return coefficients{o.Mean, o.Cos1, o.Sin1, o.Cos2, o.Sin2}
}

func (c *coefficients) offset() soil.Offset {
	return soil.Offset{Mean: c[0], Cos1: c[1], Sin1: c[2], Cos2: c[3], Sin2: c[4]}
}

// at returns what the coefficients come to at 0:00 of day i+1.
func (c *coefficients) at(i int) float64 {
	o := c.offset()
	return o.On(i)
}

// basis[i] holds what a unit of each coefficient comes to at 0:00 of day i+1.
var basis = func() (b [season.YearDays]coefficients) {
	for i := range b {
		for k := range terms {
			var one coefficients
			one[k] = 1
			b[i][k] = one.at(i)
		}
	}
	return b
}()

// Soil colder than frozenBelow counts frozenWeight in the fit of an offset.
const (
	frozenBelow  = 2.0 // °C
	frozenWeight = 0.2
)

// offsetOf returns the offset that makes soil.Default, with it in place of its
// own, come nearest to the soil year for the air year, by least squares over
// the days, and the root mean square of what is left, in K. Days with soil
// below 2 °C count a fifth.
func offsetOf(air, ground *curve.Year) (o soil.Offset, residual float64) {
	var lagged curve.Year
	soil.Model{Lag: soil.DefaultLag, Frozen: soil.DefaultFrozen}.Apply(air, &lagged)
	var left, weight [season.YearDays]float64
	for i := range left {
		left[i], weight[i] = ground[i]-lagged[i], 1
		if ground[i] < frozenBelow {
			weight[i] = frozenWeight
		}
	}
	c := leastSquares(&left, &weight)
	sum, total := 0.0, 0.0
	for i, v := range left {
		d := v - c.at(i)
		sum += float64(weight[i] * d * d)
		total += weight[i]
	}
	return c.offset(), math.Sqrt(sum / total)
}

// ColdestOf returns the lowest temperature of a year.
func ColdestOf(air *curve.Year) units.Celsius {
	low := air[0]
	for _, t := range air {
		low = min(low, t)
	}
	return units.Celsius(low)
}
