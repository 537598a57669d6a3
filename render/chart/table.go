package chart

import (
	"fmt"
	"html/template"
	"strconv"

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

// Body returns the rows as HTML, each in a line. Pages hold hundreds of fields,
// on each of which a template would spend longer than on all the rest.
func (t Table) Body() template.HTML {
	var b []byte
	for i, row := range t.Rows {
		if i > 0 {
			b = append(b, '\n')
		}
		b = append(b, "<tr>"...)
		for k, f := range row {
			if k == 0 {
				b = append(f.said(append(b, `<th scope="row"`...)), "</th>"...)
			} else {
				b = append(f.said(append(b, "<td"...)), "</td>"...)
			}
		}
		b = append(b, "</tr>"...)
	}
	return template.HTML(b)
}

// said appends what the text says as attributes, and the text.
func (f Field) said(b []byte) []byte {
	put := func(name string, v float64) {
		b = append(append(append(b, ' '), name...), `="`...)
		b = append(strconv.AppendFloat(b, v, 'f', -1, 64), '"')
	}
	if f.Days != nil {
		put("data-from", f.Days[0])
		put("data-to", f.Days[1])
	}
	if f.Celsius != nil {
		put("data-celsius", *f.Celsius)
	}
	return append(append(b, '>'), template.HTMLEscapeString(f.Text)...)
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
