package site

import (
	"fmt"
	"html/template"
	"strings"
	"time"

	"weekband/grid/season"
	"weekband/grid/status"
)

// Measures of a strip in its own units: one a day, and a height of 20.
const (
	stripWidth  = season.YearDays
	stripHeight = 20
)

// strip draws a year from 1 January to 31 December with the stretches of a
// calendar, as an SVG element that a style sheet colours by class. On time
// stands full height, ahead of time and catching up lower, so that the
// picture reads without colour.
func strip(c status.Calendar) template.HTML {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg class="strip" viewBox="0 0 %d %d" preserveAspectRatio="none" aria-hidden="true">`, stripWidth, stripHeight)
	b.WriteString(`<path class="month" d="`)
	for m := time.February; m <= time.December; m++ {
		fmt.Fprintf(&b, "M%g 0V%d", float64(season.MonthBegin(m)-1), stripHeight)
	}
	b.WriteString(`"/>`)
	stretch(&b, status.Ahead, c.AheadFrom, c.OntimeFrom, 7)
	stretch(&b, status.OnTime, c.OntimeFrom, c.OntimeTo, 0)
	stretch(&b, status.CatchingUp, c.OntimeTo, c.CatchupTo, 7)
	b.WriteString("</svg>")
	return template.HTML(b.String())
}

// stretch draws one status, in two pieces when it passes New Year.
func stretch(b *strings.Builder, s status.Status, from, to season.Day, top int) {
	begin := float64(from.In()) - 1
	length := min(float64(to-from), stripWidth)
	for length > 0 {
		piece := min(length, stripWidth-begin)
		fmt.Fprintf(b, `<rect class="%s" x="%.1f" y="%d" width="%.1f" height="%d"/>`, s.ID(), begin, top, piece, stripHeight-top)
		begin, length = 0, length-piece
	}
}
