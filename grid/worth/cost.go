package worth

import (
	"weekband/grid/season"
)

// Cost is what an application on a day comes to.
type Cost struct {
	Day     season.Day // unwrapped: it may lie outside [1, 366)
	Worth   float64    // share of the season's germination it would still stop
	OfBest  float64    // Worth as a share of the best day's
	Emerged float64    // share of the season's weeds that are up by then in the normal year
}

// Borders are the days at which statuses give way to each other. A
// status.Calendar converts to it. They rise, and may lie outside [1, 366).
type Borders struct {
	AheadFrom, OntimeFrom, OntimeTo, CatchupTo season.Day
}

// Costs says what being early or late costs at one place.
type Costs struct {
	AheadFrom, OntimeFrom, OntimeTo Cost
	TwoWeeksLate                    Cost // 14 days after OntimeTo
	CatchupTo                       Cost
	HalfUp                          Cost // when half of the weeds are up in the normal year
	Best                            Cost // the day of greatest worth
}

// Costs returns what applications are worth at the borders of statuses, two
// weeks after on time, when half of the weeds are up, and on the best day.
// OntimeTo must lie in the season, so that it follows Origin by less than a
// year; the others count from it.
func (s *Season) Costs(b Borders) Costs {
	onset := s.Origin.DaysTo(b.OntimeTo)
	bestDays, best := s.Best()
	on := func(d season.Day) Cost {
		c := s.cost(onset+float64(d-b.OntimeTo), best)
		c.Day = d
		return c
	}
	return Costs{
		AheadFrom: on(b.AheadFrom), OntimeFrom: on(b.OntimeFrom), OntimeTo: on(b.OntimeTo),
		TwoWeeksLate: on(b.OntimeTo + 14), CatchupTo: on(b.CatchupTo),
		HalfUp: on(b.OntimeTo + season.Day(s.halfUp()-onset)),
		Best:   on(b.OntimeTo + season.Day(bestDays-onset)),
	}
}

func (s *Season) cost(days, best float64) Cost {
	c := Cost{Worth: s.At(days), Emerged: s.Emerged(days)}
	if best > 0 {
		c.OfBest = min(c.Worth/best, 1) // the best day is found to a few minutes
	}
	return c
}

// Best returns the day of greatest worth in days from the origin, to about an
// hour, and its worth; the first of equally good ones. A season without weeds
// has 0 and 0.
func (s *Season) Best() (days, worth float64) {
	if s.total <= 0 {
		return 0, 0
	}
	const stride = 3.0
	for t := -season.YearDays / 2.0; t < float64(s.end); t += stride {
		if w := s.At(t); w > worth {
			days, worth = t, w
		}
	}
	lo, hi := days-stride, days+stride
	for hi-lo > 0.02 { // thirds: worth has one summit between
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if s.At(a) >= s.At(b) {
			hi = b
		} else {
			lo = a
		}
	}
	days = (lo + hi) / 2
	return days, s.At(days)
}

// Emerged returns the share of the season's weeds, 0 to 1, that are up in the
// normal year after the given number of days from the origin.
func (s *Season) Emerged(days float64) float64 {
	switch {
	case s.total <= 0 || days <= float64(s.begin):
		return 0
	case days >= float64(s.end):
		return 1
	}
	i := int(days)
	f := days - float64(i)
	return (s.emerged[i+1] + float64(f*(s.emerged[i+2]-s.emerged[i+1]))) / s.total
}

// halfUp returns the moment, in days from the origin, at which half of the
// season's weeds are up in the normal year; the origin when there are none.
func (s *Season) halfUp() float64 {
	if s.total <= 0 {
		return 0
	}
	half := float64(s.total / 2)
	day := s.begin
	for s.emerged[day+2] < half { // what is up by the end of day
		day++
	}
	before, after := s.emerged[day+1], s.emerged[day+2]
	return float64(day) + (half-before)/(after-before)
}
