package calendar

import (
	"math"
	"time"

	"weekband/grid/season"
	"weekband/grid/status"
)

// stretch is the time of one status, [from, to), unwrapped, and its words.
type stretch struct {
	status         status.Status
	from, to       season.Day
	label, meaning string
}

// inYear moves a calendar by whole years so that its crossing, the end of on
// time, lies in [1, 366).
func inYear(c status.Calendar) status.Calendar {
	by := -season.Day(season.YearDays * yearsAfter(c.OntimeTo))
	c.AheadFrom += by
	c.OntimeFrom += by
	c.OntimeTo += by
	c.CatchupTo += by
	return c
}

// days returns the first day of a stretch and the day after its last, as dates
// of the year that holds day 1 and of its neighbours: the days that pages print
// for it. 29 February belongs to the stretch that 28 February is of. A stretch
// of one day or less is one day.
func (s stretch) days(year int) (begin, end time.Time) {
	begin, end = date(year, s.from), date(year, s.to)
	if !end.After(begin) || s.to-s.from <= 1 {
		end = date(year, season.Day(math.Floor(float64(s.from))+1))
	}
	return begin, end
}

// date returns the day a moment falls on.
func date(year int, d season.Day) time.Time {
	whole := season.Day(math.Floor(float64(d)))
	month, day := whole.MonthDay()
	return time.Date(year+yearsAfter(d), month, day, 0, 0, 0, 0, time.UTC)
}

// yearsAfter returns how many years a moment lies after the one that begins on
// day 1.
func yearsAfter(d season.Day) int {
	return int(math.Floor((math.Floor(float64(d)) - 1) / season.YearDays))
}
