package crossing

import (
	"math/bits"

	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/units"
)

// Extreme is the coldest or the warmest day of a year.
type Extreme struct {
	Day season.Day // 0:00 of it
	At  units.Celsius
}

// Extremes returns the coldest and the warmest day of a year of which the
// Sketch is known.
func Extremes(c Course, s *curve.Sketch) (coldest, warmest Extreme) {
	low, high := s.Range()
	bulge := c.Bulge() + 1e-9 // an extreme lies next to a moment within a bulge of the lowest or highest
	return lowestOf(c, s, s.Under(low+bulge), 1), lowestOf(c, s, ^s.Under(high-bulge), -1)
}

// lowestOf returns the lowest day around the given moments of a sketch, of
// temperatures times sign.
func lowestOf(c Course, s *curve.Sketch, moments uint32, sign float64) (best Extreme) {
	found := false
	for ; moments != 0; moments &= moments - 1 {
		j := bits.TrailingZeros32(moments)
		before, here, after := float64(sign*s[(j+len(s)-1)%len(s)]), float64(sign*s[j]), float64(sign*s[(j+1)%len(s)])
		if before < here || after < here {
			continue // one nearby lies lower
		}
		at := float64(j)
		if bend := before - float64(2*here) + after; bend > 0 {
			at += (before - after) / (2 * bend)
		}
		e := descend(c, int(float64(at*curve.SketchStep)+0.5), sign)
		if !found || sign*float64(e.At) < sign*float64(best.At) {
			best, found = e, true
		}
	}
	return best
}

// descend returns the lowest day of the valley a day lies in, of temperatures
// times sign.
func descend(c Course, day int, sign float64) Extreme {
	on := func(day int) float64 { return sign * c.On((day+season.YearDays)%season.YearDays) }
	low := on(day)
	for step := 1; step >= -1; step -= 2 {
		for range season.YearDays {
			v := on(day + step)
			if v >= low {
				break
			}
			day, low = day+step, v
		}
	}
	return Extreme{Day: season.Day((day+season.YearDays)%season.YearDays + 1), At: units.Celsius(sign * low)}
}
