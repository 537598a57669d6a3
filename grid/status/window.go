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
	HalfLife   float64          // days, of the treatment's residual activity
	AheadDays  float64          // days
	WorthFloor float64          // 0 to 1
}

// Place is what a window gives at one place.
type Place struct {
	Crossing crossing.Crossing
	Spread   float64 // standard deviation of the crossing in days
	Calendar Calendar
}

// Judge works out one place from its soil year in °C. sdAt gives the
// year-to-year standard deviation of the crossing in days for a slope in K/d
// and a moment. When the window's trigger is never met the calendar is zero.
//
// On time begins on the early year's day of Starts and ends on the typical day
// of the trigger. Where soil never falls below Starts, its coldest day (the
// warmest for a cooling window) stands for the typical day of Starts: as a
// place grows warmer, that is what the day of Starts comes to.
//
// The calendar's days are unwrapped around Crossing.Day, which lies in
// [1, 366): OntimeFrom may be below 1 and CatchupTo above 366.
func (w *Window) Judge(year *curve.Year, sdAt func(slope float64, d season.Day) float64, s *worth.Season) Place {
	p := Place{Crossing: crossing.Find(year, w.Trigger)}
	if !p.Crossing.Reason.HasDay() {
		return p
	}
	day := p.Crossing.Day
	p.Spread = sdAt(p.Crossing.Slope, day)
	start := crossing.Find(year, w.Starts)
	begin, sd := start.Origin, p.Spread
	if start.Reason.HasDay() {
		begin, sd = start.Day, sdAt(start.Slope, start.Day)
	}
	lead := begin.DaysTo(day) // both follow the same coldest or warmest day
	c := &p.Calendar
	c.OntimeTo = day
	c.OntimeFrom = day - season.Day(lead+spread.EarlyBy(sd))
	c.AheadFrom = c.OntimeFrom - season.Day(w.AheadDays)

	origin := p.Crossing.Origin
	s.Fill(year, w.Trigger, origin, w.HalfLife, p.Spread)
	onset := origin.DaysTo(day)
	c.CatchupTo = day
	if last, ok := s.LastAbove(w.WorthFloor, onset); ok {
		c.CatchupTo = day + season.Day(last-onset)
	}
	return p
}
