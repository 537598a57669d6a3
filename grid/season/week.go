package season

import "fmt"

// Weeks is the number of weeks of the typical year.
const Weeks = 52

// Week is one of 52 fixed weeks, 1 to 52, the first beginning on 1 January.
// Each has 7 days but the last, which has 8. They are not the weeks of
// ISO 8601: a typical year has no Mondays. Weeks are never averaged.
type Week int

// Week returns the week d falls in. A moment exactly on a border belongs to
// the later week.
func (d Day) Week() Week {
	return min(Week((d.In()-1)/7)+1, Weeks)
}

// Begin returns the first moment of the week.
func (w Week) Begin() Day { return Day(7*(w-1) + 1) }

// End returns the first moment after the week.
func (w Week) End() Day {
	if w == Weeks {
		return YearDays + 1
	}
	return w.Begin() + 7
}

// Middle returns the moment halfway through the week.
func (w Week) Middle() Day { return (w.Begin() + w.End()) / 2 }

// Next returns the following week; week 1 follows week 52.
func (w Week) Next() Week { return w%Weeks + 1 }

// String writes the dates of the week, as "Mar 12–18" or "Feb 26–Mar 4".
func (w Week) String() string { return Span(w.Begin(), w.End()) }

// Span writes the dates of the whole days in [from, to), as "Mar 12–18" or
// "Feb 26–Mar 4". A span of one day or less is written as one date.
func Span(from, to Day) string {
	last := to - 1
	if last <= from {
		return from.String()
	}
	fm, fd := from.MonthDay()
	lm, ld := last.MonthDay()
	if fm == lm {
		return fmt.Sprintf("%s %d–%d", fm.String()[:3], fd, ld)
	}
	return from.String() + "–" + last.String()
}
