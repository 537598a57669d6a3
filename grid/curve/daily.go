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
		var cos, sin float64
		for i, v := range means {
			noon := &noons[i]
			cos += float64(float64(v) * noon[2*k])
			sin += float64(float64(v) * noon[2*k+1])
		}
		half := float64(k+1) * angle(0.5)
		scale := 2.0 / season.YearDays * half / math.Sin(half)
		c.Cos[k], c.Sin[k] = cos*scale, sin*scale
	}
	return c
}
