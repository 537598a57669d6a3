package series

import (
	"time"

	"weekband/grid/season"
)

// Date is a day of the Gregorian calendar, counted from 1 January 1970 = 0.
type Date int32

const secondsPerDay = 86400

// NewDate returns the date of a day. Days past the end of a month run on into
// the next.
func NewDate(year int, month time.Month, day int) Date {
	return Date(time.Date(year, month, day, 0, 0, 0, 0, time.UTC).Unix() / secondsPerDay)
}

// YMD returns year, month and day of the month.
func (d Date) YMD() (int, time.Month, int) {
	return time.Unix(int64(d)*secondsPerDay, 0).UTC().Date()
}

// Noon returns the middle of the day in the typical year, which is where its
// daily mean belongs. 29 February, which the typical year does not have, is
// taken as 0:00 on 1 March, halfway between the noons beside it.
func (d Date) Noon() season.Day {
	_, m, day := d.YMD()
	if m == time.February && day == 29 {
		return season.MonthBegin(time.March)
	}
	return season.Date(m, day) + 0.5
}

// String writes the date as ISO 8601 does, "2010-05-17".
func (d Date) String() string {
	return time.Unix(int64(d)*secondsPerDay, 0).UTC().Format(time.DateOnly)
}

// on returns the date in a year that a moment of the typical year falls on.
func on(year int, at season.Day) Date {
	m, d := at.MonthDay()
	return NewDate(year, m, d)
}

const firstYear, lastYear = 1700, 2199 // thermometers, and no slip of the pen

// parseDate reads 2010-05-17 or, for a mean of a month, 2010-05. ok is false
// for anything else and for years no series has.
func parseDate(text string) (year int, month time.Month, day int, ok bool) {
	if len(text) != 10 && len(text) != 7 {
		return 0, 0, 0, false
	}
	year, ok1 := digits(text[0:4])
	m, ok2 := digits(text[5:7])
	if !ok1 || !ok2 || text[4] != '-' || m < 1 || m > 12 || year < firstYear || year > lastYear {
		return 0, 0, 0, false
	}
	month = time.Month(m)
	if len(text) == 7 {
		return year, month, 0, true
	}
	day, ok3 := digits(text[8:10])
	if !ok3 || text[7] != '-' || day < 1 || day > monthDays(year, month) {
		return 0, 0, 0, false
	}
	return year, month, day, true
}

func digits(text string) (n int, ok bool) {
	for _, c := range []byte(text) {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = 10*n + int(c-'0')
	}
	return n, true
}

func monthDays(year int, month time.Month) int {
	leap := year%4 == 0 && (year%100 != 0 || year%400 == 0)
	if month == time.February && leap {
		return 29
	}
	return season.MonthDays(month)
}

// step is how far apart the elements of a file are.
type step uint8

const (
	unsettled step = iota
	daily
	monthly
)

// ordinal counts days from 1970, or months from year 0.
func (k step) ordinal(y int, m time.Month, d int) int32 {
	if k == monthly {
		return int32(12*y + int(m) - 1)
	}
	return int32(NewDate(y, m, d))
}

// date returns the date of an ordinal: the first day of a month.
func (k step) date(n int32) Date {
	if k == monthly {
		return NewDate(int(n/12), time.Month(n%12+1), 1)
	}
	return Date(n)
}

// written returns an ordinal as the file writes it.
func (k step) written(n int32) string {
	if k == monthly {
		return k.date(n).String()[:7]
	}
	return k.date(n).String()
}
