package shifts

import (
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/regions/report"
)

// Line is what an edition's table of regions says of one region under one
// window: published figures, rounded as the table has them.
type Line struct {
	Window   string // its id
	ID, Name string // of the region
	AreaKm2  float64
	// Dated reports whether any of its ground has a day; the next fields are
	// zero without.
	Dated            bool
	Median, P10, P90 season.Day // of the year
	Week             season.Week
	Calendar         status.Calendar // dates of the year

	NeverShare, AlwaysShare, NoDataShare, FlatShare float64
}

// HasWeek reports whether at least half of the region's ground, in whole
// percents, has a week, so that it may be told as the region's, as
// report.Row.MostlyDated does. A nil Line has none.
func (l *Line) HasWeek() bool {
	return l != nil && l.Dated && report.Mostly(1-l.NeverShare-l.AlwaysShare-l.NoDataShare-l.FlatShare)
}

// Alike reports whether two lines say the same of a region, its name and the
// window's id aside.
func (l *Line) Alike(o *Line) bool {
	a, b := *l, *o
	a.Window, a.Name = b.Window, b.Name
	return a == b
}
