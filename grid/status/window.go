package status

import (
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/worth"
)

// Defaults of a Window.
const (
	DefaultAheadDays  = 21.0 // days of ahead of time before on time
	DefaultWorthFloor = 0.25 // catching up ends when worth falls below it
)

// Window is one treatment season: what sets it off and how it is judged.
type Window struct {
	ID, Title  string
	Trigger    crossing.Trigger // the typical day of it ends on time
	Starts     crossing.Trigger // an early year's day of it begins on time
	Treatment  worth.Treatment
	AheadDays  float64 // days
	WorthFloor float64 // 0 to 1
	Second     worth.SecondRule
	Seeding    *worth.Overseeding // nil: no grass is seeded
}

// Place is what a window gives at one place.
type Place struct {
	Crossing crossing.Crossing
	Spread   float64 // standard deviation of the crossing from year to year, days
	Error    float64 // standard error of the typical day, days; 0 when not known
	Calendar Calendar
}

// Doubt says how far a crossing may move that passes its level at slope K/d
// around a moment.
type Doubt interface {
	Spread(slope float64, d season.Day) float64 // standard deviation from year to year, days
	Error(slope float64, d season.Day) float64  // standard error of the typical day, days
}

// Year is the typical year of soil at one place, as Judge asks for it.
type Year interface {
	// Find is crossing.Find.
	Find(trigger crossing.Trigger) crossing.Crossing
	// LastAbove is worth.Season.LastAbove, for the floor and the treatment of a
	// window, in the season from origin on: spread is that of worth.Season, and
	// the search begins from days after the origin.
	LastAbove(w *Window, origin season.Day, spread, from float64) (days float64, ok bool)
}

// Daily is a Year of which all days are known, in °C. A goroutine has its own
// Season, which may be reused.
type Daily struct {
	Soil   *curve.Year
	Season *worth.Season
}

// Find implements Year.
func (d Daily) Find(trigger crossing.Trigger) crossing.Crossing {
	return crossing.Find(d.Soil, trigger)
}

// LastAbove implements Year.
func (d Daily) LastAbove(w *Window, origin season.Day, spread, from float64) (days float64, ok bool) {
	d.Season.FillWith(d.Soil, w.Trigger, origin, w.Treatment, spread)
	return d.Season.LastAbove(w.WorthFloor, from)
}

// Judge works out one place from its soil year. When the trigger is not
// met, or too slowly to tell a day, all but the crossing is zero.
//
// On time begins on the early year's day of Starts and ends on the typical day
// of the trigger. Where soil never falls below Starts, its coldest day (the
// warmest for a cooling window) stands for the typical day of Starts, and the
// trigger's doubt for its own: as a place grows warmer, that is what the day
// of Starts comes to, and it is never earlier. An early year is one of ten at
// a spot of the place: year-to-year spread and the error of the typical day
// both count.
//
// The calendar's days are unwrapped around Crossing.Day, which lies in
// [1, 366): OntimeFrom may be below 1 and CatchupTo above 366.
func (w *Window) Judge(year Year, doubt Doubt) Place {
	p := Place{Crossing: year.Find(w.Trigger)}
	if !p.Crossing.Reason.HasDay() {
		return p
	}
	day, slope, origin := p.Crossing.Day, p.Crossing.Slope, p.Crossing.Origin
	p.Spread, p.Error = doubt.Spread(slope, day), doubt.Error(slope, day)
	sd := spread.Together(p.Spread, p.Error)
	lead := origin.DaysTo(day) + spread.EarlyBy(sd)
	if start := year.Find(w.Starts); start.Reason.Crosses() {
		early := spread.EarlyBy(spread.Together(doubt.Spread(start.Slope, start.Day), doubt.Error(start.Slope, start.Day)))
		lead = min(lead, start.Day.DaysTo(day)+early) // both follow the same coldest or warmest day
	}
	c := &p.Calendar
	c.OntimeTo = day
	c.OntimeFrom = day - season.Day(lead)
	c.AheadFrom = c.OntimeFrom - season.Day(w.AheadDays)

	onset := origin.DaysTo(day)
	c.CatchupTo = day
	if last, ok := year.LastAbove(w, origin, sd, onset); ok {
		c.CatchupTo = day + season.Day(last-onset)
	}
	return p
}
