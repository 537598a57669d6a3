package chart

import (
	"fmt"

	"weekband/grid/season"
	"weekband/grid/units"
	"weekband/render/wording"
)

// Table is the figures of a chart. The first field of a row is its heading.
type Table struct {
	Head []string
	Rows [][]Field
}

// Field is a field of a table: its text, and what the text says where pages
// may write it anew in the reader's units and order of dates.
type Field struct {
	Text    string
	Days    *[2]float64 // the text is the dates of the whole days in [first, second)
	Celsius *float64    // the text is this temperature, °C
}

// plain is a field of a text.
func plain(text string) Field { return Field{Text: text} }

// counted is a field of a number of things.
func counted(n int) Field { return plain(fmt.Sprint(n)) }

// dates is a field of the dates of the whole days in [from, to).
func dates(l *wording.Language, from, to season.Day) Field {
	return Field{Text: l.Span(from, to), Days: &[2]float64{rounded(float64(from), 2), rounded(float64(to), 2)}}
}

// week is a field of the dates of a week.
func week(l *wording.Language, w season.Week) Field { return dates(l, w.Begin(), w.End()) }

// warm is a field of a temperature.
func warm(c units.Celsius) Field {
	v := rounded(float64(c), 2)
	return Field{Text: warmth(c), Celsius: &v}
}
