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

// Remaining returns the share of its strength that an application at applied
// still has at a later moment, both in days from the origin, in the normal
// year. Before and at applied it is 1.
func (s *Season) Remaining(applied, days float64) float64 {
	return s.treatment.Remaining(s.year(), s.moment(applied), max(days-applied, 0))
}

// year is the soil with the season's first day as the first of the year.
func (s *Season) year() *curve.Year { return (*curve.Year)(s.soil[:season.YearDays]) }

// moment turns days from the origin into a Day of year.
func (s *Season) moment(days float64) season.Day { return season.Day(days + 1).In() }

// Split is a treatment in two parts.
type Split struct {
	First, Second         float64 // days from the origin, the second not before the first
	FirstDose, SecondDose float64 // parts of a full application, each above 0 and at most 1
}

// AtSplit returns the share of the season's germination, 0 to 1, that a split
// treatment would stop, averaged over early and late years as At is.
//
// The strengths of the two add up, and no more than all weeds are stopped:
//
//	∫ e(u)·min(1, FirstDose·remaining(First, u) + SecondDose·remaining(Second, u)) du
//
// with the second part from Second on. The formula is ours and illustrative,
// as is that strength and the share stopped are one: at label rates the share
// stopped falls more slowly than what is left in the soil, so that a first half
// stops more than half.
func (s *Season) AtSplit(split Split) float64 {
	if s.total <= 0 {
		return 0
	}
	sum := 0.0
	for _, z := range &late {
		early, lateYear := split, split
		early.First, early.Second = split.First+float64(z*s.spread), split.Second+float64(z*s.spread)
		lateYear.First, lateYear.Second = split.First-float64(z*s.spread), split.Second-float64(z*s.spread)
		sum += s.normalSplit(early) + s.normalSplit(lateYear)
	}
	return min(max(sum/float64(2*len(late)), 0), 1)
}

// normalSplit is AtSplit in the normal year.
func (s *Season) normalSplit(p Split) float64 {
	first, _ := s.normalYear(p.First)
	second, _ := s.normalYear(p.Second)
	kept := s.Remaining(p.First, p.Second)
	alone := float64(p.FirstDose * (first - float64(kept*second))) // what comes up between the two
	strength := float64(p.FirstDose*kept) + p.SecondDose
	if strength <= 1 {
		return alone + float64(strength*second)
	}
	full, _ := s.treatment.Lasts(s.year(), s.moment(p.Second), 1/strength, season.YearDays)
	afterFull, _ := s.normalYear(p.Second + full)
	return alone + s.Emerged(p.Second+full) - s.Emerged(p.Second) + afterFull
}
