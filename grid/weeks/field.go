package weeks

import (
	"weekband/grid"
	"weekband/grid/classes"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/status"
)

// Field is what one window gives on a grid. Its rasters share the grid. Days
// are unwrapped: Day lies in [Cut, Cut+365), so that neighbours on both sides
// of New Year stay neighbours; OntimeFrom and CatchupTo are of the same season,
// before and after it, and may lie outside. The day of the year is Day.In(). All
// but Reason and Slope have a value only where Reason.HasDay().
type Field struct {
	Window status.Window
	Cut    season.Day

	Reason     *grid.Raster[crossing.Reason] // no value: no temperatures here
	Day        *grid.Raster[float32]         // crossing day
	Spread     *grid.Raster[float32]         // its standard deviation, days
	OntimeFrom *grid.Raster[float32]         // day; on time ends on Day
	CatchupTo  *grid.Raster[float32]         // day
	Slope      *grid.Raster[float32]         // K/d at the crossing, wherever Reason.Crosses()
	Error      *grid.Raster[float32]         // standard error of Day, days; nil when not known
	*Common
}

// Common is what all fields of a computation share.
type Common struct {
	// Coldest and Warmest are the extremes of every cell's year in °C.
	Coldest, Warmest *grid.Raster[float32]
	// Near is how much of every cell's offset calibration stations tell, 1 to
	// 0; nil without calibration.
	Near    *grid.Raster[float32]
	Typical *Years // typical years at the wanted depth
}

// BeyondBelow is the Near under which a cell counts as beyond the reach of
// calibration stations.
const BeyondBelow = 0.5

func newField(g grid.Grid, w status.Window, common *Common) *Field {
	return &Field{
		Window: w, Cut: 1, Common: common,
		Slope:      grid.NewRaster[float32](g),
		Reason:     grid.NewRaster[crossing.Reason](g),
		Day:        grid.NewRaster[float32](g),
		Spread:     grid.NewRaster[float32](g),
		OntimeFrom: grid.NewRaster[float32](g),
		CatchupTo:  grid.NewRaster[float32](g),
	}
}

// Grid returns the grid the field lies on.
func (f *Field) Grid() grid.Grid { return f.Day.Grid() }

// Calendar returns the four days of a cell, unwrapped; ok is false where the
// cell has no crossing day.
func (f *Field) Calendar(c grid.Cell) (cal status.Calendar, ok bool) {
	day, ok := f.Day.At(c)
	if !ok {
		return status.Calendar{}, false
	}
	from, _ := f.OntimeFrom.At(c)
	to, _ := f.CatchupTo.At(c)
	return status.Calendar{
		AheadFrom:  season.Day(from) - season.Day(f.Window.AheadDays),
		OntimeFrom: season.Day(from), OntimeTo: season.Day(day), CatchupTo: season.Day(to),
	}, true
}

// Years returns the crossing day of an early (10 %) and a late (90 %) year at
// a spot of a cell, unwrapped like Day: both the spread from year to year and
// the error of the typical day count. ok is false where it has no crossing day.
func (f *Field) Years(c grid.Cell) (early, late season.Day, ok bool) {
	day, ok := f.Day.At(c)
	if !ok {
		return 0, 0, false
	}
	sd, _ := f.Spread.At(c)
	by := season.Day(spread.EarlyBy(spread.Together(float64(sd), f.ErrorAt(c))))
	return season.Day(day) - by, season.Day(day) + by, true
}

// BeyondReach reports whether a cell is beyond the reach of calibration
// stations; never without calibration.
func (f *Field) BeyondReach(c grid.Cell) bool {
	if f.Common == nil || f.Near == nil {
		return false
	}
	near, ok := f.Near.At(c)
	return ok && near < BeyondBelow
}

// ErrorAt returns the standard error of a cell's day in days, 0 when not
// known.
func (f *Field) ErrorAt(c grid.Cell) float64 {
	if f.Error == nil {
		return 0
	}
	e, _ := f.Error.At(c)
	return float64(e)
}

// Expected returns the expected error of the typical day, in days: the mean
// absolute error of the cell in the middle by area. It is 0 when not known.
func (f *Field) Expected() float64 {
	if f.Error == nil {
		return 0
	}
	middle := classes.Quantiles(f.Error, 0.5)
	if middle == nil {
		return 0
	}
	return spread.Expected(middle[0])
}

// Histogram returns the area in km² whose crossing falls in each week; index
// 0 is unused.
func (f *Field) Histogram() (km2 [season.Weeks + 1]float64) {
	for day, area := range f.Day.Areas() {
		km2[season.Day(day).Week()] += area
	}
	return km2
}

// AreaOf returns the area in km² of the cells with each reason.
func (f *Field) AreaOf() (km2 [len(crossing.Reasons)]float64) {
	for reason, area := range f.Reason.Areas() {
		km2[reason] += area
	}
	return km2
}

// Land returns the area in km² of all cells with normals.
func (f *Field) Land() float64 {
	sum := 0.0
	for _, area := range f.AreaOf() {
		sum += area
	}
	return sum
}

// Beyond returns the area in km² beyond the reach of calibration stations, 0
// without calibration.
func (f *Field) Beyond() float64 {
	sum := 0.0
	if f.Near == nil {
		return sum
	}
	for near, area := range f.Near.Areas() {
		if near < BeyondBelow {
			sum += area
		}
	}
	return sum
}

// unwrap moves every Day into [Cut, Cut+365), and the days of its season with it.
func (f *Field) unwrap() { f.unwrapAt(CutOf(f.Histogram())) }

func (f *Field) unwrapAt(cut season.Day) {
	f.Cut = cut
	for row := range f.Grid().Rows() {
		days, has := f.Day.Row(row)
		from, _ := f.OntimeFrom.Row(row)
		to, _ := f.CatchupTo.Row(row)
		for col, ok := range has {
			if ok && season.Day(days[col]) < f.Cut {
				days[col] += season.YearDays
				from[col] += season.YearDays
				to[col] += season.YearDays
			}
		}
	}
}

// CutOf returns the first moment of the week that follows the longest run of
// weeks, around the year, in which nothing crosses; of equally long runs the
// one that ends earliest in the year. When every week has a crossing, as on a
// world, it begins the week in which least ground crosses. Where crossings do
// not reach over New Year it is 1. The areas may have any unit; index 0 is
// unused.
func CutOf(km2 [season.Weeks + 1]float64) season.Day {
	best, bestRun := season.Week(1), 0
	least := season.Week(1)
	for w := season.Week(1); w <= season.Weeks; w++ {
		if km2[w] < km2[least] {
			least = w
		}
		if km2[w] == 0 {
			continue
		}
		if run := quietBefore(km2, w); run > bestRun {
			best, bestRun = w, run
		}
	}
	switch {
	case bestRun == 0:
		return least.Begin()
	case !crossesNewYear(km2, best): // a cut there moves nothing
		return 1
	}
	return best.Begin()
}

// quietBefore counts the weeks without a crossing just before a week.
func quietBefore(km2 [season.Weeks + 1]float64, w season.Week) int {
	run := 0
	for before := w - 1; run < season.Weeks; before-- {
		if before < 1 {
			before = season.Weeks
		}
		if km2[before] > 0 {
			break
		}
		run++
	}
	return run
}

// crossesNewYear reports whether the weeks from w on reach past week 52.
func crossesNewYear(km2 [season.Weeks + 1]float64, w season.Week) bool {
	for before := season.Week(1); before < w; before++ {
		if km2[before] > 0 {
			return true
		}
	}
	return false
}

// DayOfYear returns an unwrapped day of a raster within [1, 366).
func DayOfYear(day float32) float32 {
	for day >= season.YearDays+1 {
		day -= season.YearDays
	}
	for day < 1 {
		day += season.YearDays
	}
	return day
}
