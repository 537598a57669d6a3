package zonal

import (
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
)

// Summary is what happens in a region. All shares are of the region's whole
// area and the five of them add to 1; ground outside the grid has no data.
type Summary struct {
	AreaKm2 float64 // on the ellipsoid, with the part outside the grid

	// HasDay is false when no ground has a crossing day; then the three
	// quantiles are 0 and mean nothing.
	HasDay bool
	// Median, P10 and P90 are quantiles of the crossing day over the ground
	// that has one, weighted by area, as Quantiles defines them. They are
	// unwrapped like the day raster.
	Median, P10, P90 float64

	// Weeks[w] is the share that crosses in season week w, 1 to 52; index 0
	// is unused. The weeks add to DatedShare.
	Weeks [season.Weeks + 1]float64

	DatedShare                                      float64 // with a day
	FlatShare, NeverShare, AlwaysShare, NoDataShare float64 // without
}

// Summarize returns what the crossing days and reasons are within a coverage.
// A cell without a reason has no data; so has one whose reason promises a day
// that the day raster lacks. day is unwrapped: it may run past 366; it has
// values only where the reason has a day. It panics when a raster lies on
// another grid.
func Summarize(c Coverage, day *grid.Raster[float32], reason *grid.Raster[crossing.Reason]) Summary {
	c.mustMatch(day.Grid())
	c.mustMatch(reason.Grid())
	var s Summary
	var km2 [len(crossing.Reasons)]float64
	for run, area := range c.weights() {
		days, dated := day.Row(int(run.Row))
		reasons, known := reason.Row(int(run.Row))
		each := area / float64(run.cells())
		for col := run.From; col < run.To; col++ {
			why := crossing.NoData
			if known[col] {
				why = reasons[col]
			}
			if why.HasDay() && !dated[col] {
				why = crossing.NoData
			}
			km2[why] += each
			if why.HasDay() {
				s.Weeks[weekOf(days[col])] += each
			}
		}
	}
	km2[crossing.NoData] += c.Outside
	s.scale(km2)
	s.quantiles(c, day)
	return s
}

// weekOf is season.Day.Week, looked up.
func weekOf(day float32) season.Week {
	if day >= 1 && day < unwrappedEnd {
		return season.Week(weekOfDay[int(day)])
	}
	return season.Day(day).Week()
}

// unwrappedEnd is past every unwrapped day.
const unwrappedEnd = 2*season.YearDays + 1

// weekOfDay is the week of every whole day before unwrappedEnd.
var weekOfDay = func() (weeks [unwrappedEnd]uint8) {
	for day := range weeks {
		weeks[day] = uint8(season.Day(day).Week())
	}
	return weeks
}()

// scale turns areas into shares.
func (s *Summary) scale(km2 [len(crossing.Reasons)]float64) {
	for _, a := range km2 {
		s.AreaKm2 += a
	}
	if s.AreaKm2 == 0 {
		s.NoDataShare = 1
		return
	}
	for w := range s.Weeks {
		s.Weeks[w] /= s.AreaKm2
	}
	s.DatedShare, s.FlatShare = km2[crossing.Dated]/s.AreaKm2, km2[crossing.Flat]/s.AreaKm2
	s.NeverShare, s.AlwaysShare = km2[crossing.Never]/s.AreaKm2, km2[crossing.Always]/s.AreaKm2
	s.NoDataShare = km2[crossing.NoData] / s.AreaKm2
}

func (s *Summary) quantiles(c Coverage, day *grid.Raster[float32]) {
	if s.DatedShare == 0 {
		return
	}
	if q, ok := Quantiles(c, day, 0.1, 0.5, 0.9); ok {
		s.HasDay = true
		s.P10, s.Median, s.P90 = q[0], q[1], q[2]
	}
}
