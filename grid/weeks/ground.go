package weeks

import (
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/worth"
)

// ground is one cell's typical year of soil at the wanted depth: a status.Year
// in closed form. Where that does not tell, or conduction takes the year to
// another depth than the model's, it is status.Daily.
type ground struct {
	response *soil.Response
	depth    soil.Conduction

	course soil.Course
	sketch curve.Sketch

	// What follows is worked out when it is asked for.
	coldest, warmest              crossing.Extreme
	fine                          curve.Fine
	days                          curve.Year
	hasExtremes, hasFine, hasDays bool

	ending worth.Ending
	season worth.Season // where days are asked for
}

// lay makes g the soil under air, of which g.sketch is the Sketch.
func (g *ground) lay(air *curve.Curve, offset *soil.Offset) {
	g.response.Course(air, &g.sketch, offset, &g.course)
	if !g.response.Same(offset) {
		g.course.Sketch(&g.sketch)
	}
	g.hasExtremes, g.hasFine, g.hasDays = false, false, false
}

// extremes returns the coldest and the warmest day.
func (g *ground) extremes() (coldest, warmest crossing.Extreme) {
	switch {
	case g.hasExtremes:
	case g.depth.Active():
		f := crossing.Find(g.year(), crossing.Trigger{Direction: crossing.Warming})
		g.coldest, g.warmest = crossing.Extreme{Day: f.Origin, At: f.Coldest}, crossing.Extreme{Day: f.Summit, At: f.Warmest}
	default:
		g.coldest, g.warmest = crossing.Extremes(&g.course, &g.sketch)
	}
	g.hasExtremes = true
	return g.coldest, g.warmest
}

// daily is the year as all its days tell it.
func (g *ground) daily() status.Daily {
	return status.Daily{Soil: g.year(), Season: &g.season}
}

// year returns all days of the year.
func (g *ground) year() *curve.Year {
	if !g.hasDays {
		g.course.Sample(&g.days)
		g.depth.Apply(&g.days)
		g.hasDays = true
	}
	return &g.days
}

// evenly returns the year at even moments.
func (g *ground) evenly() *curve.Fine {
	if !g.hasFine {
		g.course.Fine(&g.fine)
		g.hasFine = true
	}
	return &g.fine
}

// monthMeans returns the average over each month.
func (g *ground) monthMeans() [12]units.Celsius {
	if g.depth.Active() {
		return g.year().MonthMeans()
	}
	return g.course.MonthMeans(g.evenly())
}

// Find implements status.Year.
func (g *ground) Find(trigger crossing.Trigger) crossing.Crossing {
	if g.depth.Active() {
		return g.daily().Find(trigger)
	}
	found, ok := g.seek(trigger)
	if !ok {
		return g.daily().Find(trigger)
	}
	coldest, warmest := g.extremes()
	found.Coldest, found.Warmest = coldest.At, warmest.At
	found.Origin, found.Summit = coldest.Day, warmest.Day
	if trigger.Direction == crossing.Cooling {
		found.Origin, found.Summit = warmest.Day, coldest.Day
	}
	return found
}

// seek finds the crossing without the extremes; ok is false where all days are
// wanted.
func (g *ground) seek(trigger crossing.Trigger) (found crossing.Crossing, ok bool) {
	return crossing.Seek(&g.course, &g.sketch, trigger)
}

// LastAbove implements status.Year.
func (g *ground) LastAbove(w *status.Window, origin season.Day, spread, from float64) (days float64, ok bool) {
	if g.depth.Active() {
		return g.daily().LastAbove(w, origin, spread, from)
	}
	return g.ending.LastAbove(g.evenly(), w.Trigger, origin, w.Treatment, spread, w.WorthFloor, from)
}
