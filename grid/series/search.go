package series

import (
	"weekband/grid/crossing"
	"weekband/grid/season"
)

// Bounds of the use of a year; Yearly says what for.
const (
	spanDays    = 7
	runDays     = 5
	bridgeDays  = 3
	gaplessDays = 60
	restDays    = 30 // three standard deviations of a crossing
	leastShare  = 0.8
)

// search looks for crossings in one series.
type search struct {
	s       *Station
	has     []bool // as measured
	present []int  // present[i] is the number of measured elements before i
	filled  Values // with short gaps bridged
	mean    Values // over seven days, trailing
	level   float32
	cooling bool
	normal  *crossing.Crossing
}

func newSearch(s *Station, v *Values, normal *crossing.Crossing, trigger crossing.Trigger) *search {
	w := &search{s: s, has: v.Has, normal: normal, level: float32(trigger.Level), cooling: trigger.Direction == crossing.Cooling}
	w.present = make([]int, len(v.Has)+1)
	for i, ok := range v.Has {
		w.present[i+1] = w.present[i]
		if ok {
			w.present[i+1]++
		}
	}
	w.filled = bridged(v, bridgeDays)
	w.mean = trailing(&w.filled, spanDays)
	return w
}

// past reports whether an element is present and at or past the level.
func (w *search) past(v *Values, i int) bool {
	if i < 0 || i >= len(v.Has) || !v.Has[i] {
		return false
	}
	if w.cooling {
		return v.Vals[i] <= w.level
	}
	return v.Vals[i] >= w.level
}

// year judges the season between two origins.
func (w *search) year(origin, next Date, by Definition) Year {
	label, _, _ := (origin + season.YearDays/4).YMD()
	y := Year{Year: label, Reason: crossing.NoData}
	from, to := int(origin-w.s.First), int(next-w.s.First)
	hit, ok := runEnd(func(i int) bool { return w.past(&w.mean, i) }, from, to, 1)
	if ok && !w.usable(from, hit) || !ok && !w.whole(from, to) {
		return y
	}
	at, ok := w.find(by, from, to, hit, ok)
	switch {
	case !ok:
		y.Reason = crossing.Never
	case at <= from:
		y.Reason = crossing.Always
	default:
		y.Reason = crossing.Dated
		y.Date = w.s.Date(at)
		y.Day = y.Date.Noon()
	}
	return y
}

// find returns the element a definition names; hit is that of Trailing7, if
// it has one.
func (w *search) find(by Definition, from, to, hit int, crossed bool) (at int, ok bool) {
	single := func(i int) bool { return w.past(&w.filled, i) }
	switch by {
	case FirstDay:
		return runEnd(single, from, to, 1)
	case FiveDays:
		end, ok := runEnd(single, from, to, runDays)
		return end - runDays + 1, ok
	case Centred7:
		return hit - spanDays/2, crossed
	case LastBelow: // days that are missing, long after the crossing, do not count
		end := from + int(w.normal.Origin.DaysTo(w.normal.Summit))
		at := end
		for at > from && (single(at-1) || !w.there(at-1)) {
			at--
		}
		return at, at < end
	}
	return hit, crossed
}

// there reports whether an element is measured or bridged.
func (w *search) there(i int) bool { return i >= 0 && i < len(w.filled.Has) && w.filled.Has[i] }

// gapless reports whether all elements from from to to, both included, are
// measured or bridged.
func (w *search) gapless(from, to int) bool {
	for i := from; i <= to; i++ {
		if !w.there(i) {
			return false
		}
	}
	return true
}

// share returns which part of the elements in [from, to) is measured.
func (w *search) share(from, to int) float64 {
	n := len(w.has)
	return float64(w.present[min(max(to, 0), n)]-w.present[min(max(from, 0), n)]) / float64(to-from)
}

// usable reports whether enough was measured to trust a crossing at hit in a
// season that begins at from.
func (w *search) usable(from, hit int) bool {
	rest := w.normal.Summit
	if w.normal.Reason.HasDay() {
		rest = w.normal.Day + restDays
	}
	end := max(hit, from+int(w.normal.Origin.DaysTo(rest)))
	return w.share(from, hit+1) >= leastShare && w.gapless(max(from, hit-gaplessDays), end)
}

// whole reports whether enough was measured of a season to say that it never
// crossed.
func (w *search) whole(from, to int) bool {
	mid := from + int(w.normal.Origin.DaysTo(w.normal.Summit))
	return w.share(from, to) >= leastShare && w.gapless(max(from, mid-gaplessDays), min(to-1, mid+gaplessDays))
}
