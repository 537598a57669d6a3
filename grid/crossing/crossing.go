package crossing

import (
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

// FlatSlope is the slope in K/d under which a crossing is ill-conditioned:
// half a degree of error moves it by 6 days or more.
const FlatSlope = 0.08

// Crossing is what a year of temperatures does at a trigger.
type Crossing struct {
	Day    season.Day // in [1, 366); meaningful only when Reason.Crosses()
	Slope  float64    // K/d at Day, positive in the trigger's direction
	Reason Reason     // Dated, Flat, Never or Always
	Origin season.Day // 0:00 of the coldest (warming) or warmest (cooling) day
	Summit season.Day // 0:00 of the other extreme, the first of the calendar year

	Coldest, Warmest units.Celsius // of the year
}

// Find returns the first moment, from the coldest day onward for Warming or
// the warmest day onward for Cooling, at which the year is at or past the
// level. A temperature exactly at the level counts as reached, so a year
// whose coldest day just touches a warming level is Always. When the year
// meets the level several times the first after the origin counts. When
// several days are equally cold the first of the calendar year is the
// origin. Find never fails; it is Never or Always when the level lies
// outside the year's range.
//
// Between samples the year is a cubic through the four nearest, so that the
// day is right to a few thousandths for smooth years.
func Find(year *curve.Year, trigger Trigger) Crossing {
	sign := trigger.Direction.Sign()
	level := sign * float64(trigger.Level)
	lowest, highest := 0, 0
	for i, t := range year {
		if sign*t < sign*year[lowest] {
			lowest = i
		}
		if sign*t > sign*year[highest] {
			highest = i
		}
	}
	c := Crossing{Origin: season.Day(lowest + 1), Summit: season.Day(highest + 1), Coldest: units.Celsius(year[lowest]), Warmest: units.Celsius(year[highest])}
	if trigger.Direction == Cooling {
		c.Coldest, c.Warmest = c.Warmest, c.Coldest
	}
	switch {
	case sign*year[lowest] >= level:
		c.Reason = outside(trigger.Direction, true)
		return c
	case sign*year[highest] < level:
		c.Reason = outside(trigger.Direction, false)
		return c
	}
	i := lowest
	for sign*year[(i+1)%season.YearDays] < level {
		i++
	}
	at := func(offset int) float64 {
		return sign * year[(i+offset+season.YearDays)%season.YearDays]
	}
	frac, slope := rise(at(-1), at(0), at(1), at(2), level)
	c.Day = (season.Day(i+1) + season.Day(frac)).In()
	c.Slope = slope
	c.Reason = Dated
	if slope < FlatSlope {
		c.Reason = Flat
	}
	return c
}

// outside names the reason for a level that the year lies wholly past, or
// wholly short of. Past a cooling level means that it is never that warm.
func outside(d Direction, past bool) Reason {
	if past == (d == Warming) {
		return Always
	}
	return Never
}

// rise returns where, in (0, 1], the cubic through four equally spaced values
// first reaches the level between the middle two, y0 < level <= y1, and its
// slope there per step.
func rise(before, y0, y1, after, level float64) (frac, slope float64) {
	// Newton's form of the cubic in u, with u = 0 at y0 and 1 at y1.
	c1 := y1 - y0
	c2 := (after - y1 - y0 + before) / 4
	c3 := (after - float64(3*y1) + float64(3*y0) - before) / 6
	value := func(u float64) float64 { return y0 + float64(u*(c1+float64((u-1)*(c2+float64(c3*(u-0.5)))))) }
	lo, hi := 0.0, 1.0
	for range 40 { // a day halved 40 times is far below a microsecond
		mid := (lo + hi) / 2
		if value(mid) < level {
			lo = mid
		} else {
			hi = mid
		}
	}
	const h = 1e-4
	return hi, (value(hi+h) - value(hi-h)) / (2 * h)
}
