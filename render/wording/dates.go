package wording

import (
	"fmt"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"weekband/grid/season"
)

// Order says what stands first in a date.
type Order uint8

const (
	MonthFirst Order = iota // Mar 12
	DayFirst                // 12 Mar
)

// Orders lists the orders.
var Orders = [...]Order{MonthFirst, DayFirst}

// String returns the word of a recipe.
func (o Order) String() string { return [...]string{"month-first", "day-first"}[o] }

// MarshalText gives the word of a recipe.
func (o Order) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// UnmarshalText reads the word of a recipe. The error lists the words.
func (o *Order) UnmarshalText(text []byte) error {
	for _, v := range Orders {
		if v.String() == string(text) {
			*o = v
			return nil
		}
	}
	return fmt.Errorf("order of dates %q: want month-first or day-first", text)
}

// Dates is how days and months are written.
type Dates struct {
	Months  [12]string // in full
	Short   [12]string // as in dates and on axes
	Forms   [len(Orders)]DateForm
	AllYear string
	Before  func(date string) string // days before a date, not counting it
	OrLater func(date string) string // days from a date, counting it
	Year    string                   // the span of an axis, "January to December"
}

// DateForm is how dates are written in one order. month is a short name.
type DateForm struct {
	Date func(month string, day int) string      // one day
	Span func(month string, from, to int) string // days of one month, the last included
}

// Month returns the full name of a month.
func (l *Language) Month(m time.Month) string { return l.Dates.Months[m-1] }

// ShortMonth returns the short name of a month, "Mar".
func (l *Language) ShortMonth(m time.Month) string { return l.Dates.Short[m-1] }

// Initial returns the first letter of a month's short name.
func (l *Language) Initial(m time.Month) string {
	r, _ := utf8.DecodeRuneInString(l.ShortMonth(m))
	return string(r)
}

// Date writes the date a moment falls on, whatever its year: "Mar 12".
func (l *Language) Date(d season.Day) string {
	m, n := d.MonthDay()
	return l.Dates.Forms[l.Order].Date(l.ShortMonth(m), n)
}

// Span writes the dates of the whole days in [from, to), as "Mar 12–18" or
// "Feb 26–Mar 4". A span of one day or less is written as one date.
func (l *Language) Span(from, to season.Day) string {
	last := to - 1
	if last <= from {
		return l.Date(from)
	}
	fm, fd := from.MonthDay()
	lm, ld := last.MonthDay()
	if fm == lm && ld >= fd && last-from < season.YearDays/2 {
		return l.Dates.Forms[l.Order].Span(l.ShortMonth(fm), fd, ld)
	}
	return l.Date(from) + "–" + l.Date(last)
}

// Week writes the dates of a week.
func (l *Language) Week(w season.Week) string { return l.Span(w.Begin(), w.End()) }

// Stretch writes the dates of a class of days: a span, or, with an open end,
// "before Feb 5", "Jun 11 or later" or "all year".
func (l *Language) Stretch(from, to season.Day, openBegin, openEnd bool) string {
	switch {
	case openBegin && openEnd:
		return l.Dates.AllYear
	case openBegin:
		return l.Dates.Before(l.Date(to))
	case openEnd:
		return l.Dates.OrLater(l.Date(from))
	}
	return l.Span(from, to)
}

// measures are the units that stay on the line of their number.
var measures = [...]string{"°F", "°C", "in", "cm"}

// Together puts no-break spaces between numbers and their units and between
// days and their months, so that each pair stays on one line.
func (l *Language) Together(text string) string {
	words := strings.Split(text, " ")
	var b strings.Builder
	for i, w := range words {
		if i > 0 {
			space := " "
			if l.pair(words[i-1], w) {
				space = "\u00a0"
			}
			b.WriteString(space)
		}
		b.WriteString(w)
	}
	return b.String()
}

// pair reports whether two words belong on one line.
func (l *Language) pair(a, b string) bool {
	last, _ := utf8.DecodeLastRuneInString(a)
	first, _ := utf8.DecodeRuneInString(b)
	if unicode.IsDigit(last) {
		for _, unit := range measures {
			if begins(b, unit) {
				return true
			}
		}
	}
	for _, m := range l.Dates.Short {
		if unicode.IsDigit(last) && begins(b, m) || unicode.IsDigit(first) && ends(a, m) {
			return true
		}
	}
	return false
}

// begins reports whether a text begins with a word.
func begins(text, word string) bool {
	rest, ok := strings.CutPrefix(text, word)
	next, _ := utf8.DecodeRuneInString(rest)
	return ok && !unicode.IsLetter(next)
}

// ends reports whether a text ends with a word.
func ends(text, word string) bool {
	rest, ok := strings.CutSuffix(text, word)
	before, _ := utf8.DecodeLastRuneInString(rest)
	return ok && !unicode.IsLetter(before)
}
