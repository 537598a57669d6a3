package worth

import (
	"math"

	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
)

// Half-lives of the residual activity in days, as generic classes. A product's
// label and local trials come before them.
const (
	Short  = 30.0
	Medium = 60.0
	Long   = 120.0
)

// Season is the worth of every day of a season at one place. The season
// begins at 0:00 on Origin, the coldest day before a warming trigger or the
// warmest before a cooling one, and lasts 365 days.
type Season struct {
	Origin season.Day
	shares [season.YearDays + 1]float64 // at Origin + i days, before the spread
	total  float64                      // degree-days of the whole season
	spread float64                      // days
	half   float64                      // days
}

// Fill works out the season of one place, reusing s: year is its soil in °C,
// half the half-life of the treatment in days (positive), spread the standard
// deviation of the crossing from year to year in days.
//
// With e(u) the emergence per day of the normal year, an application at t
// stops Σ e(u)·2^−(u−t)/half over the days u after t, as a share of the
// season's emergence. Where the season has no degree-days at all every share
// is 0.
func (s *Season) Fill(year *curve.Year, trigger crossing.Trigger, origin season.Day, half, spread float64) {
	e := For(trigger.Direction)
	s.Origin, s.half, s.spread = origin, half, spread
	first := int(origin) - 1
	sign := 1.0
	if trigger.Direction == crossing.Cooling {
		sign = -1
	}
	var emerged [season.YearDays + 1]float64
	degreeDays := 0.0
	for i := range season.YearDays {
		degreeDays += max(0, sign*(year[(first+i)%season.YearDays]-e.Base))
		emerged[i+1] = e.tabled(degreeDays)
	}
	s.total = emerged[season.YearDays]
	if s.total <= 0 {
		s.shares = [season.YearDays + 1]float64{}
		return
	}
	day := math.Exp2(-1 / half)
	noon := math.Exp2(-0.5 / half) // a day's weeds come up about its noon
	s.shares[season.YearDays] = 0
	for i := season.YearDays - 1; i >= 0; i-- {
		today := (emerged[i+1] - emerged[i]) / s.total
		s.shares[i] = today*noon + s.shares[i+1]*day
	}
}

// At returns the share of the season's germination, 0 to 1, that an
// application after the given number of days from the origin would still
// stop, averaged over early and late years. Days before the origin are
// negative.
func (s *Season) At(days float64) float64 {
	sum := 0.0
	for _, z := range years {
		sum += s.normalYear(days - z*s.spread)
	}
	return sum / float64(len(years))
}

// years are the standard normal deviates of ten equally likely years: the
// 5 %, 15 %, … 95 % quantiles.
var years = [...]float64{
	-1.6448536269514722, -1.0364333894937898, -0.6744897501960817, -0.38532046640756773, -0.12566134685507402,
	0.12566134685507402, 0.38532046640756773, 0.6744897501960817, 1.0364333894937898, 1.6448536269514722,
}

// normalYear is the share in the normal year, linear between days.
func (s *Season) normalYear(days float64) float64 {
	switch {
	case days <= 0:
		return s.shares[0] * math.Exp2(days/s.half)
	case days >= season.YearDays:
		return 0
	}
	i := int(days)
	f := days - float64(i)
	return s.shares[i] + f*(s.shares[i+1]-s.shares[i])
}

// LastAbove returns the last moment, in days from the origin, at which At is
// at least floor, searching from the given moment on; ok is false when it is
// below floor from there on.
func (s *Season) LastAbove(floor, from float64) (days float64, ok bool) {
	if s.total <= 0 {
		return 0, false
	}
	const stride = 7.0
	hi := float64(season.YearDays)
	for lo := hi - stride; hi > from; lo, hi = lo-stride, lo {
		lo = max(lo, from)
		if s.At(lo) < floor {
			continue
		}
		for range 12 { // 7 days halved 12 times is 2 minutes
			mid := (lo + hi) / 2
			if s.At(mid) < floor {
				hi = mid
			} else {
				lo = mid
			}
		}
		return lo, true
	}
	return 0, false
}
