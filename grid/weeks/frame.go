package weeks

import (
	"maps"
	"math"
	"slices"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/status"
)

// Stages returns, for every dated cell, how far its season has come at a
// moment, as a continuous number whose contours are the fronts between
// statuses: below 1 it is resting, in [1, 2) ahead of time, in [2, 3) on
// time, in [3, 4) catching up, from 4 on past. Within a stretch the number
// rises evenly. The moment is unwrapped like the field's days; a cell past
// its season stays past for the whole of [Cut, Cut+365).
func (f *Field) Stages(at season.Day) *grid.Raster[float32] {
	out := grid.NewRaster[float32](f.Grid())
	ahead := float32(f.Window.AheadDays)
	for row := range f.Grid().Rows() {
		days, has := f.Day.Row(row)
		from, _ := f.OntimeFrom.Row(row)
		to, _ := f.CatchupTo.Row(row)
		vals, set := out.Row(row)
		for col, ok := range has {
			if ok {
				vals[col], set[col] = stage(float32(at), [4]float32{from[col] - ahead, from[col], days[col], to[col]}), true
			}
		}
	}
	return out
}

// StageAreas returns the area in km² in each status, by its number, of a
// raster that Stages made.
func StageAreas(stages *grid.Raster[float32]) (km2 [len(status.All)]float64) {
	for stage, area := range stages.Areas() {
		km2[min(max(int(stage), 0), len(km2)-1)] += area
	}
	return km2
}

// StageBreaks are the numbers at which one status gives way to the next, so
// that band i of them is status i.
var StageBreaks = []float64{1, 2, 3, 4}

// outer is the length in days of one unit before the first border and after
// the last.
const outer = 30

// stage places a moment among four rising borders.
func stage(at float32, borders [4]float32) float32 {
	if at < borders[0] {
		return 1 - (borders[0]-at)/outer
	}
	for i := 1; i < len(borders); i++ {
		if at < borders[i] {
			return float32(i) + (at-borders[i-1])/(borders[i]-borders[i-1])
		}
	}
	return 4 + (at-borders[3])/outer
}

// sliver is the share of the dated area, at either end of the season, that may
// be ahead of time or catching up outside the frames.
const sliver = 0.01

// Frames returns the weeks, unwrapped, in which more than slivers of ground
// are ahead of time, on time or catching up, with one week before and one
// after. Without a dated cell there are none.
func (f *Field) Frames() []Frame {
	first, last, any := f.season()
	if !any {
		return nil
	}
	var frames []Frame
	week := first.In().Week()
	begin := first - (first.In() - week.Begin()) // unwrapped begin of the week
	week, begin = previous(week, begin)
	for ; len(frames) < season.Weeks; week, begin = following(week, begin) {
		middle := begin + (week.Middle() - week.Begin())
		frames = append(frames, Frame{Week: week, Middle: middle})
		if begin > last {
			break
		}
	}
	return frames
}

// season returns the day by which a sliver of the ground is ahead of time or
// further, and the day from which all but a sliver is past.
func (f *Field) season() (first, last season.Day, any bool) {
	begins, ends := map[int]float64{}, map[int]float64{} // km² by whole day
	total := 0.0
	g := f.Grid()
	for cell := range f.Day.All() {
		c, _ := f.Calendar(cell)
		area := g.CellArea(cell.Row)
		begins[int(math.Floor(float64(c.AheadFrom)))] += area
		ends[int(math.Ceil(float64(c.CatchupTo)))] += area
		total += area
	}
	if total == 0 {
		return 0, 0, false
	}
	sum := 0.0
	for _, day := range slices.Sorted(maps.Keys(begins)) {
		if sum += begins[day]; sum > sliver*total {
			first = season.Day(day)
			break
		}
	}
	sum = 0
	for _, day := range slices.Backward(slices.Sorted(maps.Keys(ends))) {
		if sum += ends[day]; sum > sliver*total {
			last = season.Day(day)
			break
		}
	}
	return first, last, true
}

// Frame is one week of a series.
type Frame struct {
	Week   season.Week
	Middle season.Day // unwrapped
}

func following(w season.Week, begin season.Day) (season.Week, season.Day) {
	return w.Next(), begin + (w.End() - w.Begin())
}

func previous(w season.Week, begin season.Day) (season.Week, season.Day) {
	before := w - 1
	if before < 1 {
		before = season.Weeks
	}
	return before, begin - (before.End() - before.Begin())
}
