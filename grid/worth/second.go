package worth

import (
	"weekband/grid/curve"
	"weekband/grid/season"
)

// SecondRule says when a second application is due. The zero value takes the
// defaults.
type SecondRule struct {
	Below float64 // it is due when the first has this share of its strength left; 0: DefaultBelow
	Until float64 // but not once this share of the season's weeds is up; 0: DefaultUntil
}

const (
	// DefaultBelow is the strength at which a second application is due: half.
	// It is ours. With a medium half-life in soil at DefaultReference that is
	// after 60 days, where extension services put it: a follow-up after
	// about 8 weeks (Kansas State University, March 2016), half the rate
	// again after 6 to 8 weeks (NC State Extension, AG-763W).
	DefaultBelow = 0.5

	// DefaultUntil is the share of weeds after which a second application
	// no longer pays. It is ours: at most a tenth could still be stopped.
	DefaultUntil = 0.9
)

// Second returns when a second application is due after a first one at
// applied, both in days from the origin, in the normal year; due is false when
// the first lasts until the season's weeds are up, or when there are none.
func (s *Season) Second(applied float64, rule SecondRule) (days float64, due bool) {
	if rule.Below == 0 {
		rule.Below = DefaultBelow
	}
	if rule.Until == 0 {
		rule.Until = DefaultUntil
	}
	if s.total <= 0 {
		return 0, false
	}
	over := s.leftToCome(1 - rule.Until)
	lasts, gone := s.treatment.Lasts(s.year(), s.moment(applied), rule.Below, max(over-applied, 0))
	if !gone || s.Emerged(applied+lasts) >= rule.Until {
		return 0, false
	}
	return applied + lasts, true
}

// year is the soil with the season's first day as the first of the year.
func (s *Season) year() *curve.Year { return (*curve.Year)(s.soil[:season.YearDays]) }

// moment turns days from the origin into a Day of year.
func (s *Season) moment(days float64) season.Day { return season.Day(days + 1).In() }
