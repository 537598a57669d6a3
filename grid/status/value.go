package status

import (
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/worth"
)

// Value is what applications in a window come to at one place.
type Value struct {
	Costs worth.Costs
	// Second is when a second application is due after a first one in the
	// middle of on time, unwrapped like the calendar; SecondDue is false when
	// the first lasts until the season's weeds are up.
	Second    season.Day
	SecondDue bool
	// Seeding is what the window's overseeding leaves open, nil without one.
	Seeding *worth.Kept
}

// Value works out what applications come to at a place with a calendar, from
// its soil year in °C and the standard deviation sd, in days, of a spot's
// crossing about the typical day. The calendar must not be zero.
func (w *Window) Value(year *curve.Year, cal Calendar, sd float64, s *worth.Season) Value {
	origin := crossing.Find(year, w.Trigger).Origin
	s.FillWith(year, w.Trigger, origin, w.Treatment, sd)
	borders := worth.Borders(cal)
	v := Value{Costs: s.Costs(borders)}
	onset := origin.DaysTo(cal.OntimeTo)
	first := onset - float64(cal.OntimeTo-cal.OntimeFrom)/2
	if days, due := s.Second(first, w.Second); due {
		v.Second, v.SecondDue = cal.OntimeTo+season.Day(days-onset), true
	}
	if w.Seeding != nil {
		kept := w.Seeding.Within(borders)
		v.Seeding = &kept
	}
	return v
}
