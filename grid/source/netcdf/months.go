package netcdf

import (
	"math"
	"strconv"
	"strings"
)

// readMonths returns the month of every layer by its time coordinate; nil
// when there is none that can be read. Times serve to order months and for
// messages, so what cannot be read is no error.
func (f *File) readMonths() []int {
	c, unit, origin := f.timeCoordinate()
	if c == nil {
		return nil
	}
	cal := calendarOf(c.attrs["calendar"].text)
	start, ok := parseOrigin(origin)
	if !ok || cal == nil {
		return nil
	}
	times, err := f.numbers(c)
	if err != nil || len(times) != f.layers {
		return nil
	}
	months := make([]int, len(times))
	for i, t := range times {
		if months[i], ok = monthAt(t, strings.ToLower(strings.TrimSpace(unit)), start, cal); !ok {
			return nil
		}
	}
	return months
}

// timeCoordinate returns the coordinate variable that counts time since an
// origin, with both parts of its units: that of the layers or, in a file of
// one layer, of any dimension; nil when there is none.
func (f *File) timeCoordinate() (c *variable, unit, origin string) {
	for i, d := range f.v.dims {
		c := f.h.coordinate(d)
		if c == nil || f.layerDim >= 0 && i != f.layerDim {
			continue
		}
		if unit, origin, ok := strings.Cut(c.attrs["units"].text, " since "); ok {
			return c, unit, origin
		}
	}
	return nil, "", ""
}

// civil is a date with the part of the day that has passed.
type civil struct {
	year, month, day int
	part             float64
}

// parseOrigin reads "1800-01-01 00:00:0.0", "1-1-1", "1900-1-1T12:00Z".
func parseOrigin(text string) (c civil, ok bool) {
	date, clock, _ := strings.Cut(strings.Replace(strings.TrimSpace(text), "T", " ", 1), " ")
	parts := strings.Split(date, "-")
	if len(parts) != 3 {
		return c, false
	}
	for i, to := range []*int{&c.year, &c.month, &c.day} {
		v, err := strconv.Atoi(parts[i])
		if err != nil {
			return c, false
		}
		*to = v
	}
	for i, p := range strings.Split(strings.TrimRight(strings.TrimSpace(clock), "Z"), ":") {
		if v, err := strconv.ParseFloat(p, 64); err == nil && i < 3 {
			c.part += v / [...]float64{24, 1440, 86400}[i]
		}
	}
	return c, c.year >= -9999 && c.year <= 99999 && c.month >= 1 && c.month <= 12 && c.day >= 1 && c.day <= 31
}

// calendar maps dates to day numbers and back, in one of CF's calendars
// (CF 4.4.1).
type calendar struct {
	number func(year, month, day int) float64
	month  func(number float64) int
}

func calendarOf(name string) *calendar {
	switch strings.ToLower(name) {
	case "", "standard", "gregorian":
		return &calendar{mixedNumber, mixedMonth}
	case "proleptic_gregorian":
		return &calendar{gregorianNumber, gregorianMonth}
	case "julian":
		return &calendar{julianNumber, julianMonth}
	case "noleap", "365_day":
		return fixedCalendar([12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31})
	case "all_leap", "366_day":
		return fixedCalendar([12]int{31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31})
	case "360_day":
		return fixedCalendar([12]int{30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30, 30})
	}
	return nil
}

// fixedCalendar is one in which all years have the same months.
func fixedCalendar(days [12]int) *calendar {
	year := 0
	for _, d := range days {
		year += d
	}
	return &calendar{
		number: func(y, m, d int) float64 {
			n := y*year + d - 1
			for _, length := range days[:m-1] {
				n += length
			}
			return float64(n)
		},
		month: func(n float64) int {
			d := int(n - float64(math.Floor(n/float64(year))*float64(year)))
			for m, length := range days {
				if d < length {
					return m + 1
				}
				d -= length
			}
			return 12
		},
	}
}

// Julian day numbers of noon, by Fliegel and Van Flandern's arithmetic in the
// form of Richards (Explanatory Supplement to the Astronomical Almanac, 3rd
// edition, 15.11); written with floor divisions so that early years work.
func gregorianNumber(y, m, d int) float64 {
	a := (14 - m) / 12
	yy, mm := y+4800-a, m+12*a-3
	return float64(d + (153*mm+2)/5 + 365*yy + floorDiv(yy, 4) - floorDiv(yy, 100) + floorDiv(yy, 400) - 32045)
}

func julianNumber(y, m, d int) float64 {
	a := (14 - m) / 12
	yy, mm := y+4800-a, m+12*a-3
	return float64(d + (153*mm+2)/5 + 365*yy + floorDiv(yy, 4) - 32083)
}

func julianMonth(n float64) int {
	c := int(n) + 32082
	d := floorDiv(4*c+3, 1461)
	return shiftedMonth(c - floorDiv(1461*d, 4))
}

func gregorianMonth(n float64) int {
	a := int(n) + 32044
	b := floorDiv(4*a+3, 146097)
	c := a - floorDiv(146097*b, 4)
	d := floorDiv(4*c+3, 1461)
	return shiftedMonth(c - floorDiv(1461*d, 4))
}

// shiftedMonth returns the month of a day of the year that begins in March.
func shiftedMonth(e int) int {
	m := (5*e + 2) / 153
	return (m+2)%12 + 1
}

func floorDiv(a, b int) int { return int(math.Floor(float64(a) / float64(b))) }

// reform is the first day of the Gregorian calendar, 15 October 1582, which
// followed 4 October of the Julian one.
const reform = 2299161

func mixedNumber(y, m, d int) float64 {
	if g := gregorianNumber(y, m, d); g >= reform {
		return g
	}
	return julianNumber(y, m, d)
}

func mixedMonth(n float64) int {
	if n >= reform {
		return gregorianMonth(n)
	}
	return julianMonth(n)
}

// monthAt returns the month at a time since start.
func monthAt(t float64, unit string, start civil, cal *calendar) (int, bool) {
	perDay := 0.0
	switch unit {
	case "days", "day", "d":
		perDay = 1
	case "hours", "hour", "hr", "hrs", "h":
		perDay = 24
	case "minutes", "minute", "min", "mins":
		perDay = 1440
	case "seconds", "second", "sec", "secs", "s":
		perDay = 86400
	case "months", "month":
		if math.Abs(t) > 1e6 {
			return 0, false
		}
		m := start.month - 1 + int(math.Floor(t))
		return (m%12+12)%12 + 1, true
	default:
		return 0, false
	}
	n := cal.number(start.year, start.month, start.day) + start.part + t/perDay
	if math.IsNaN(n) || math.Abs(n) > 1e8 {
		return 0, false
	}
	return cal.month(math.Floor(n + 1e-6)), true // times in float32 fall a little short of midnight
}
