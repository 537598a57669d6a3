package site

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/regions/places"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/wording"
)

// functions returns what the templates call.
func functions(l *wording.Language) template.FuncMap {
	w := writer{l}
	return template.FuncMap{
		"strip":    strip,
		"percent":  percent,
		"km2":      km2,
		"span":     w.span,
		"day":      w.day,
		"week":     w.week,
		"weekOf":   func(d season.Day) template.HTML { return w.week(d.Week()) },
		"year":     func() string { return l.Dates.Year },
		"initials": w.initials,
		"byName":   byName,
		"undated":  func(s zonal.Summary) string { return l.Sentences.Window.NoWeek(report.Why(s)) },
		"without":  without,
		"valued":   valued,
		"partly":   partly,
		"fragment": func(at grid.LonLat, name string) template.URL { return template.URL(Fragment(at, name)) },
	}
}

// writer writes dates so that the page's script can write them again in the
// order a reader prefers.
type writer struct{ lang *wording.Language }

// span writes the dates of the whole days in [from, to).
func (w writer) span(from, to season.Day) template.HTML {
	return template.HTML(fmt.Sprintf(`<span data-from="%s" data-to="%s">%s</span>`,
		moment(from), moment(to), template.HTMLEscapeString(w.lang.Span(from, to))))
}

// day writes the date of a moment.
func (w writer) day(d season.Day) template.HTML {
	return template.HTML(fmt.Sprintf(`<span data-day="%s">%s</span>`, moment(d), template.HTMLEscapeString(w.lang.Date(d))))
}

// week writes the dates of a week.
func (w writer) week(n season.Week) template.HTML { return w.span(n.Begin(), n.End()) }

// initials are the first letters of the months, each in an element.
func (w writer) initials() template.HTML {
	var b strings.Builder
	for m := time.January; m <= time.December; m++ {
		fmt.Fprintf(&b, "<span>%s</span>", template.HTMLEscapeString(w.lang.Initial(m)))
	}
	return template.HTML(b.String())
}

// moment writes a day of the year with the hundredth of a day that keeps its
// date.
func moment(d season.Day) string {
	return strconv.FormatFloat(math.Floor(float64(d.In())*100)/100, 'f', -1, 64)
}

// percent writes a share as "12 %", and a small one as "under 1 %", on one
// line.
func percent(share float64) string {
	switch {
	case share <= 0:
		return "0\u00a0%"
	case share < 0.01:
		return "under 1\u00a0%"
	}
	return strconv.Itoa(int(math.Round(share*100))) + "\u00a0%"
}

// km2 writes an area with a thin space between thousands.
func km2(v float64) string {
	digits := strconv.FormatFloat(v, 'f', 0, 64)
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			b.WriteRune('\u2009')
		}
		b.WriteRune(d)
	}
	return b.String()
}

// byName returns the rows in the order of their names, in which a reader
// looks for one.
func byName(rows []report.Row) []*report.Row {
	list := make([]*report.Row, len(rows))
	for i := range rows {
		list[i] = &rows[i]
	}
	slices.SortStableFunc(list, func(a, b *report.Row) int { return strings.Compare(places.Fold(a.Name), places.Fold(b.Name)) })
	return list
}

// without lists the shares of a region's ground that have no week.
func without(s zonal.Summary) string {
	var parts []string
	for _, p := range []struct {
		share float64
		words string
	}{{s.AlwaysShare, "of it always above"}, {s.NeverShare, "of it never crosses"}, {s.FlatShare, "of it hovers near the threshold"}} {
		if p.share > 0.005 {
			parts = append(parts, percent(p.share)+" "+p.words)
		}
	}
	return strings.Join(parts, ", ")
}

// partly tells when the weeks of a region hold for less than half of its
// ground.
func partly(r *report.Row) string {
	if r.MostlyDated() {
		return ""
	}
	return "on " + percent(r.Shares.DatedShare) + " of its ground"
}

// valued reports whether any region tells what applications come to.
func valued(rows []report.Row) bool {
	return slices.ContainsFunc(rows, func(r report.Row) bool { return r.Value != nil })
}
