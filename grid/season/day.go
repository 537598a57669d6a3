package season

import (
	"fmt"
	"math"
	"time"
)

// YearDays is the length of the typical year in days.
const YearDays = 365

// Day is a moment of the typical year, in days counted from 1.0 = 1 January
// 0:00, so that noon on 1 January is 1.5. The year is the half-open range
// [1, 366); values outside it are moments of a neighbouring year and become
// its own with In. Days of the year compare with < only within one year; use
// DaysTo for the way around New Year.
type Day float64

// monthStart[m] is the number of days before month m+1.
var monthStart = [13]int{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}

// MonthDays returns the number of days of a month of the typical year.
func MonthDays(m time.Month) int { return monthStart[m] - monthStart[m-1] }

// MonthBegin returns the first moment of a month.
func MonthBegin(m time.Month) Day { return Day(monthStart[m-1] + 1) }

// Date returns 0:00 on a day of a month. It panics when the typical year has
// no such date.
func Date(m time.Month, day int) Day {
	if m < time.January || m > time.December || day < 1 || day > MonthDays(m) {
		panic(fmt.Sprintf("season: no day %d in month %d", day, m))
	}
	return Day(monthStart[m-1] + day)
}

// OfDate returns 0:00 on a day and month of any year: 29 February counts as
// the day before. It panics when no year has such a date.
func OfDate(m time.Month, day int) Day {
	if m == time.February && day == 29 {
		day = 28
	}
	return Date(m, day)
}

// In returns the same moment within [1, 366).
func (d Day) In() Day {
	if d >= 1 && d < YearDays+1 {
		return d
	}
	t := math.Mod(float64(d)-1, YearDays)
	if t < 0 {
		t += YearDays
	}
	if t >= YearDays { // a negative hair rounds up to the whole year
		t = 0
	}
	return Day(t + 1)
}

// DaysTo returns how many days o comes after d, in [0, 365): the way from
// late December to early January is short.
func (d Day) DaysTo(o Day) float64 {
	gap := float64(o - d)
	if gap <= -YearDays || gap >= YearDays {
		gap = math.Mod(gap, YearDays)
	}
	if gap < 0 {
		gap += YearDays
	}
	if gap >= YearDays {
		gap = 0
	}
	return gap
}

// Apart returns how many days o comes after d by the shorter way around the
// year: from −182.5, before it, to less than 182.5.
func (d Day) Apart(o Day) float64 {
	gap := d.DaysTo(o)
	if gap >= YearDays/2.0 {
		gap -= YearDays
	}
	return gap
}

// MonthDay returns the date d falls on.
func (d Day) MonthDay() (time.Month, int) {
	n := int(d.In()) // 1 to 365
	m := time.January
	for n > monthStart[m] {
		m++
	}
	return m, n - monthStart[m-1]
}

// String writes the date as "Mar 12".
func (d Day) String() string {
	m, n := d.MonthDay()
	return fmt.Sprintf("%s %d", m.String()[:3], n)
}

// ISO writes the date as month and day, "03-12", the last two fields of an
// ISO 8601 calendar date.
func (d Day) ISO() string {
	m, n := d.MonthDay()
	return fmt.Sprintf("%02d-%02d", int(m), n)
}
