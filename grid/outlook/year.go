package outlook

import (
	"math"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
)

// year is this year at a place, turned so that it always warms: for a
// cooling trigger every temperature has its sign changed. Its moments are in
// days, unwrapped around the typical day.
type year struct {
	*memory
	normal         *curve.Year
	sign, level    float64
	origin, summit float64 // moments of the coldest and the warmest day
	latest         float64 // moment of the latest reading
	departure      float64 // K, mean of the readings on the latest one's day
	above          bool    // whether their mean is at or above the level
}

// thisYear weighs the readings, of which there is at least one.
func (p *Place) thisYear(typical crossing.Crossing, readings []Reading) *year {
	y := &year{normal: p.Normal, sign: p.Trigger.Direction.Sign(), latest: math.Inf(-1)}
	y.level = y.sign * float64(p.Trigger.Level)
	y.origin = float64(typical.Day) - typical.Origin.DaysTo(typical.Day)
	y.summit = float64(typical.Day) + typical.Day.DaysTo(typical.Summit)

	moments, departures := make([]float64, len(readings)), make([]float64, len(readings))
	for i, r := range readings {
		moments[i] = y.summit - season.YearDays + season.Day(y.summit).DaysTo(r.Day)
		departures[i] = y.sign * float64(r.Soil.Sub(p.normalAt(r.Day)))
		y.latest = max(y.latest, moments[i])
	}
	n, soil := 0.0, 0.0
	for i, r := range readings {
		if math.Floor(moments[i]) == math.Floor(y.latest) {
			n++
			soil += float64(y.sign * float64(r.Soil))
			y.departure += departures[i]
		}
	}
	y.departure /= n
	y.above = soil/n >= y.level
	y.memory = remember(p, typical.Slope, moments, departures)
	return y
}

// forGood returns the moment after the latest reading from which on the
// expected soil is at or above the level until the warmest day. The normal
// year is taken never to fall again once its coldest day is past, so that
// its own relapses are none of this year's. It returns false when the soil
// is still below on the warmest day.
func (y *year) forGood() (float64, bool) {
	start := max(y.latest, y.origin)
	normal, last, day := math.Inf(-1), 0.0, start
	for t := math.Round(y.origin); t <= y.summit+0.5; t++ {
		i := int(season.Day(t).In()) - 1
		normal = max(normal, y.sign*y.normal[i])
		gap := normal + y.expected(t) - y.level
		switch {
		case gap < 0:
			day = math.Inf(1)
		case math.IsInf(day, 1):
			day = t - gap/(gap-last)
		}
		if t < math.Floor(start) {
			day = start
		}
		last = gap
	}
	return max(day, start), !math.IsInf(day, 1)
}
