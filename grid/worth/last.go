package worth

import (
	"math"

	"weekband/grid/season"
)

// LastAbove returns the last moment, in days from the origin, at which At is
// at least floor, searching from the given moment on; ok is false when it is
// below floor from there on. At the moment returned worth is within 1e-4 of
// floor, unless that lies before from. It takes worth not to rise again in
// the same season once weeds are mostly up.
func (s *Season) LastAbove(floor, from float64) (days float64, ok bool) {
	switch {
	case s.total <= 0:
		return 0, false
	case floor <= 0: // worth is never below it
		return max(from, season.YearDays), true
	}
	const (
		enough = 2e-5 // of worth, which falls by a few hundredths a day
		near   = 1e-3 // of worth: from here the slope, right to a few hundredths, leads all the way
		stride = 7.0  // days, where the slope leads nowhere
	)
	lo, hi, found := from, math.Inf(1), false // above floor at lo once found, below it at hi
	t := max(s.leftToCome(floor), from)       // no more can be stopped than is still to come
	for range 100 {
		worth, slope := s.at(t)
		over := worth - floor
		switch {
		case math.Abs(over) < enough || found && hi-lo < 1e-3:
			return t, true
		case math.Abs(over) < near && slope < -near && t-over/slope >= from:
			return t - over/slope, true
		case over > 0:
			lo, found = t, true
		case t <= from:
			return 0, false
		default:
			hi = t
		}
		switch next := t - over/slope; {
		case slope < 0 && next > lo && next < hi:
			t = next
		case !found:
			t = max(t-stride, from)
		case math.IsInf(hi, 1):
			t += stride
		default:
			t = (lo + hi) / 2
		}
	}
	return lo, found
}

// leftToCome returns the moment from which less than a share of the season's
// weeds of the normal year is still to come up.
func (s *Season) leftToCome(share float64) float64 {
	lo, hi := s.begin, s.end // less than the share is left at hi, not at lo
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if s.total-s.emerged[mid+1] < share*s.total {
			hi = mid
		} else {
			lo = mid
		}
	}
	return float64(hi)
}
