package curve

import (
	"fmt"
	"math"

	"weekband/grid/season"
	"weekband/grid/units"
)

// FromDays returns the least-squares curve of the given harmonic order, 1 to
// 6, through 365 daily means, 1 January first. A daily mean is the average
// over its day, so each harmonic is taken about its noon and enlarged by the
// little that averaging over a day takes away. It panics when the order or
// the number of days is another.
func FromDays(means []units.Celsius, order int) Curve {
	if len(means) != season.YearDays || order < 1 || order > Order {
		panic(fmt.Sprintf("curve: %d days, order %d; want 365 and 1 to %d", len(means), order, Order))
	}
	var c Curve
	for _, v := range means {
		c.Mean += float64(v) / season.YearDays
	}
	for k := range order {
		for i, v := range means {
			noon := &noons[i]
			c.Cos[k] += 2 * float64(v) * noon[2*k] / season.YearDays
			c.Sin[k] += 2 * float64(v) * noon[2*k+1] / season.YearDays
		}
		half := float64(k+1) * angle(0.5)
		c.Cos[k] *= half / math.Sin(half)
		c.Sin[k] *= half / math.Sin(half)
	}
	return c
}

// noons holds the turns at noon of every day.
var noons = func() (t [season.YearDays]turn) {
	for i := range t {
		for k := range Order {
			t[i][2*k+1], t[i][2*k] = math.Sincos(float64(k+1) * angle(float64(i)+0.5))
		}
	}
	return t
}()
