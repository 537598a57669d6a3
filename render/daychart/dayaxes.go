package daychart

import (
	"math"
	"strconv"
	"time"

	"weekband/grid/season"
	"weekband/render/plane"
	"weekband/render/wording"
)

// dayAxes are two axes with the same days, from the lower left corner of a
// square frame to the right and up.
type dayAxes struct {
	frame plane.Rect
	from  season.Day // at the lower left corner, unwrapped
	to    season.Day
	daily bool // days within months are numbered
	lang  *wording.Language
}

// leastDays is the shortest stretch of days axes show: room for two weeks on
// both sides of a single dot.
const leastDays = 60

// newDayAxes returns axes that hold all days with a margin. A stretch under
// leastDays is widened on both sides.
func newDayAxes(frame plane.Rect, days []season.Day) dayAxes {
	from, to := days[0], days[0]
	for _, d := range days[1:] {
		from, to = min(from, d), max(to, d)
	}
	margin := max(5, season.Day(0.04*(to-from)))
	if short := leastDays - (to - from + season.Day(2*margin)); short > 0 {
		margin += short / 2
	}
	return dayAxes{frame: frame, from: from - margin, to: to + margin}
}

// perDay returns the length of a day in pixels.
func (a dayAxes) perDay() float64 { return a.frame.Width() / float64(a.to-a.from) }

// at returns where a pair of days stands.
func (a dayAxes) at(x, y season.Day) plane.Pixel {
	return plane.Pixel{X: a.frame.Left + float64(float64(x-a.from)*a.perDay()), Y: a.frame.Bottom - float64(float64(y-a.from)*a.perDay())}
}

// tick is a mark of an axis.
type tick struct {
	day   season.Day
	label string // empty for none
	month bool   // a month begins
}

// monthSpan is a month of an unwrapped calendar.
type monthSpan struct {
	month      time.Month
	begin, end season.Day
}

// months returns the months that the axes show.
func (a dayAxes) months() []monthSpan { return monthsBetween(a.from, a.to) }

// monthsBetween returns the months that lie between two days in part or whole,
// in order, around New Year as often as need be.
func monthsBetween(from, to season.Day) []monthSpan {
	var out []monthSpan
	for year := math.Floor(float64(from-1) / season.YearDays); ; year++ {
		for m := time.January; m <= time.December; m++ {
			begin := season.MonthBegin(m) + season.Day(year*season.YearDays)
			end := begin + season.Day(season.MonthDays(m))
			if begin >= to {
				return out
			}
			if end > from {
				out = append(out, monthSpan{month: m, begin: begin, end: end})
			}
		}
	}
}

// roomy reports whether a week has room for the numbers of days at a unit of
// u pixels.
func (a dayAxes) roomy(u float64) bool { return 7*a.perDay() >= 2.4*u }

// numbered are the days of a month that have marks when days are numbered.
var numbered = [...]int{1, 8, 15, 22}

// ticks returns the beginnings of months and, with numbered days, the 8th,
// 15th and 22nd.
func (a dayAxes) ticks() []tick {
	var out []tick
	for _, m := range a.months() {
		for _, n := range numbered {
			t := tick{day: m.begin + season.Day(n-1), month: n == 1}
			if a.daily {
				t.label = strconv.Itoa(n)
			}
			if t.day >= a.from && t.day <= a.to && (t.month || t.label != "") {
				out = append(out, t)
			}
		}
	}
	return out
}
