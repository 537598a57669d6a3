package status

import "weekband/grid/season"

// Status is what a week is good for at a place.
type Status uint8

const (
	Resting    Status = iota // too early to think of it
	Ahead                    // early: part of the strength is lost before the weeds come
	OnTime                   // the stretch to aim for
	CatchingUp               // some weeds are up, the rest can still be stopped
	Past                     // too few are left to stop
)

// All lists the statuses in their order through the season.
var All = [...]Status{Resting, Ahead, OnTime, CatchingUp, Past}

// String returns the words a reader sees.
func (s Status) String() string {
	return [...]string{"resting", "ahead of time", "on time", "catching up", "past"}[s]
}

// ID returns the short word used in files.
func (s Status) ID() string {
	return [...]string{"resting", "ahead", "ontime", "catchup", "past"}[s]
}

// Calendar holds the moments at which one status gives way to the next. They
// rise, and may lie outside [1, 366) so that they keep their order over New
// Year. The zero value is no calendar: everything is past.
type Calendar struct {
	AheadFrom, OntimeFrom, OntimeTo, CatchupTo season.Day
}

// At returns the status of a moment. A moment on a border has the later
// status. The moments between two seasons are resting in the half of them
// nearer to the coming season and past in the other half.
func (c Calendar) At(d season.Day) Status {
	season0 := float64(c.CatchupTo - c.AheadFrom)
	between := season.YearDays - season0
	switch t := c.AheadFrom.DaysTo(d); {
	case t < float64(c.OntimeFrom-c.AheadFrom):
		return Ahead
	case t < float64(c.OntimeTo-c.AheadFrom):
		return OnTime
	case t < season0:
		return CatchingUp
	case t < season0+between/2:
		return Past
	}
	return Resting
}

// Of returns the status of a week: that of its middle.
func (c Calendar) Of(w season.Week) Status { return c.At(w.Middle()) }
