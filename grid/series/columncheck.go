package series

import "math"

// columns compares the series of a station with each other.
func (c *check) columns() {
	last := c.s.Len() - 1
	for k := range c.s.Soil {
		soil := &c.s.Soil[k]
		n, share, ratio := compare(&c.s.Air, soil)
		switch {
		case n > 0 && share > sameShare:
			c.note(Same, Refused, k, 0, last, n, share)
		case n > 0 && ratio > livelier:
			c.note(Swapped, Refused, k, 0, last, n, ratio)
		}
		if k == 0 {
			continue
		}
		n, share, ratio = compare(&c.s.Soil[k-1], soil)
		switch {
		case n > 0 && share > sameShare:
			c.note(Same, Noted, k, 0, last, n, share)
		case n > 0 && ratio > livelier:
			c.note(Depths, Noted, k, 0, last, n, ratio)
		}
	}
}

// leastCompared is how many pairs two columns must have to be compared.
const leastCompared = 60

// compare returns the number of days both series have, the share of them on
// which they are equal, and the ratio of the root mean square of the changes
// from day to day, b to a. n is 0 when there are too few days.
func compare(a, b *Values) (n int, same, ratio float64) {
	equal, steps := 0, 0
	var sa, sb float64
	for i := range a.Has {
		if !a.Has[i] || !b.Has[i] {
			continue
		}
		n++
		if a.Vals[i] == b.Vals[i] {
			equal++
		}
		if i > 0 && a.Has[i-1] && b.Has[i-1] {
			da, db := float64(a.Vals[i]-a.Vals[i-1]), float64(b.Vals[i]-b.Vals[i-1])
			sa, sb = sa+float64(da*da), sb+float64(db*db)
			steps++
		}
	}
	if n < leastCompared || steps < leastCompared || sa == 0 {
		return 0, 0, 0
	}
	return n, float64(equal) / float64(n), math.Sqrt(sb / sa)
}
