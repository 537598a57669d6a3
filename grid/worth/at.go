package worth

import (
	"weekband/grid/season"
)

// At returns the share of the season's germination, 0 to 1, that an
// application after the given number of days from the origin would still
// stop, averaged over ten equally likely years from early to late. Days before
// the origin are negative.
func (s *Season) At(days float64) float64 {
	worth, _ := s.at(days)
	return min(max(worth, 0), 1) // interpolation may be 1e-7 off
}

// late holds the standard normal deviates of the later five of ten equally
// likely years: the 55 %, 65 %, … 95 % quantiles. The earlier five mirror them.
var late = [...]float64{0.12566134685507402, 0.38532046640756773, 0.6744897501960817, 1.0364333894937898, latest}

// latest is the deviate of the latest of the years.
const latest = 1.6448536269514722

// at is At and about how much it changes a day.
func (s *Season) at(days float64) (worth, slope float64) {
	if s.total <= 0 {
		return 0, 0
	}
	if s.spread == 0 {
		return s.normalYear(days)
	}
	reach := float64(latest * s.spread)
	if days-reach >= 2-ago && days+reach < season.YearDays {
		return s.within(days)
	}
	for _, z := range &late {
		for _, shifted := range [...]float64{days - float64(z*s.spread), days + float64(z*s.spread)} {
			w, d := s.normalYear(shifted)
			worth += w / float64(2*len(late))
			slope += d / float64(2*len(late))
		}
	}
	return worth, slope
}

// within is at where none of the ten years leaves the shares.
func (s *Season) within(days float64) (worth, slope float64) {
	x, spread := days+ago, s.spread
	if first := int(x-float64(latest*spread)) - 1; first < s.known {
		s.reach(first)
	}
	var sumA, sumB, slopeA, slopeB float64
	for _, z := range &late {
		a, b := x-float64(z*spread), x+float64(z*spread)
		i, j := int(a), int(b)
		w, d := between((*[4]float64)(s.shares[i-1:]), a-float64(i))
		sumA += w
		slopeA += d
		w, d = between((*[4]float64)(s.shares[j-1:]), b-float64(j))
		sumB += w
		slopeB += d
	}
	n := 1 / (float64(2*len(late)) * s.total)
	return (sumA + sumB) * n, (slopeA + slopeB) * n
}

// between interpolates a fraction f past the second of four equally spaced
// values by Bessel's formula to second differences, and returns the first
// difference too.
func between(y *[4]float64, f float64) (value, slope float64) {
	d := y[2] - y[1]
	return y[1] + float64(f*(d+float64((f-1)*0.25*((y[0]+y[3])-(y[1]+y[2]))))), d
}

// normalYear is at in the normal year.
func (s *Season) normalYear(days float64) (worth, slope float64) {
	x := days + ago
	switch {
	case days >= float64(s.end):
		return 0, 0
	case x < 2: // a year earlier all the year's decay comes on top
		s.reach(0)
		if s.shares[ago] == 0 {
			return 0, 0
		}
		worth, slope = s.normalYear(days + season.YearDays)
		year := s.shares[0] / s.shares[ago]
		return worth * year, slope * year
	}
	i := int(x)
	if i-1 < s.known {
		s.reach(i - 1)
	}
	worth, slope = between((*[4]float64)(s.shares[i-1:]), x-float64(i))
	return worth / s.total, slope / s.total
}
