package daychart

import (
	"math"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// gutter is the room left of the frame for the labels of the upright axis.
func (a dayAxes) gutter(u float64) float64 {
	font := press.SampleFont(u)
	if a.daily {
		return math.Ceil(widestMonth(font, a.lang) + font.Width("22") + float64(1.3*u))
	}
	return math.Ceil(widestMonth(font, a.lang) + float64(0.9*u))
}

// widestMonth returns the width of the longest short name of a month.
func widestMonth(font canvas.Font, lang *wording.Language) float64 {
	width := 0.0
	for _, name := range lang.Dates.Short {
		width = max(width, font.Width(name))
	}
	return width
}

// shown returns the part of the month the axes show.
func (m monthSpan) shown(a dayAxes) monthSpan {
	m.begin, m.end = max(m.begin, a.from), min(m.end, a.to)
	return m
}

// lines draws the frame, a line at the beginning of every month both ways,
// and the marks outside the frame.
func (a dayAxes) lines(p *press.Page, u float64) {
	var months, marks plane.Path
	for _, t := range a.ticks() {
		at, long := a.at(t.day, t.day), 0.25*u
		if t.month {
			long = 0.5 * u
			months.Add(plane.Pixel{X: at.X, Y: a.frame.Top}, plane.Pixel{X: at.X, Y: a.frame.Bottom})
			months.Add(plane.Pixel{X: a.frame.Left, Y: at.Y}, plane.Pixel{X: a.frame.Right, Y: at.Y})
		}
		marks.Add(plane.Pixel{X: at.X, Y: a.frame.Bottom}, plane.Pixel{X: at.X, Y: a.frame.Bottom + long})
		marks.Add(plane.Pixel{X: a.frame.Left - long, Y: at.Y}, plane.Pixel{X: a.frame.Left, Y: at.Y})
	}
	thin := max(1, u*0.07)
	p.Stroke(&months, canvas.Pen{Color: canvas.GuideInk, Width: thin})
	p.Stroke(&marks, canvas.Pen{Color: canvas.LesserInk, Width: thin})
	p.Stroke(plane.RectPath(a.frame), canvas.Pen{Color: canvas.LesserInk, Width: thin})
}

// labels writes months along both axes, between their beginnings, and days
// where they are numbered. It returns the y under them.
func (a dayAxes) labels(p *press.Page, u float64) float64 {
	font := press.SampleFont(u)
	across, up := canvas.Text{Anchor: canvas.Middle, Font: font, Color: canvas.LesserInk}, canvas.Text{Anchor: canvas.End, Font: font, Color: canvas.LesserInk}
	across.At.Y, up.At.X = a.frame.Bottom+float64(0.6*u)+font.Ascent(), a.frame.Left-float64(0.75*u)
	if a.daily {
		a.numbers(p, across, up)
		across.At.Y += font.Line()
		up.At.X -= font.Width("22") + float64(0.45*u)
	}
	across.Color, up.Color = canvas.TextInk, canvas.TextInk
	a.names(p, across, up)
	return across.At.Y + font.Descent()
}

// numbers writes the days at their marks; the texts say how and where.
func (a dayAxes) numbers(p *press.Page, across, up canvas.Text) {
	for _, t := range a.ticks() {
		at := a.at(t.day, t.day)
		across.String, up.String = t.label, t.label
		across.At.X, up.At.Y = at.X, at.Y+up.Font.Middle()
		p.Text(press.AxisText, across)
		p.Text(press.AxisText, up)
	}
}

// names writes the months in the middle of what is shown of each, where they
// fit along the frame: all of them, or every second, third and so on.
func (a dayAxes) names(p *press.Page, across, up canvas.Text) {
	const february = 28
	font := across.Font
	everyAcross := stepOf((widestMonth(font, a.lang) + float64(0.4*font.Size)) / (february * a.perDay()))
	everyUp := stepOf(font.Line() / (february * a.perDay()))
	for _, m := range a.months() {
		part := m.shown(a)
		half := (part.begin + part.end) / 2
		at, long := a.at(half, half), a.frame.Width()*float64((part.end-part.begin)/(a.to-a.from))
		across.String, up.String = a.lang.ShortMonth(m.month), a.lang.ShortMonth(m.month)
		across.At.X, up.At.Y = at.X, at.Y+font.Middle()
		if b := across.Bounds(); (int(m.month)-1)%everyAcross == 0 && (everyAcross > 1 || long > b.Width()) && b.Left >= a.frame.Left && b.Right <= a.frame.Right {
			p.Text(press.AxisText, across)
		}
		if b := up.Bounds(); (int(m.month)-1)%everyUp == 0 && (everyUp > 1 || long > font.Size) && b.Top >= a.frame.Top-font.Size/3 && b.Bottom <= a.frame.Bottom+font.Size/3 {
			p.Text(press.AxisText, up)
		}
	}
}

// stepOf returns the step of months, a divisor of the year, of which one has
// room for months of labels.
func stepOf(months float64) int {
	for _, s := range [...]int{1, 2, 3, 4, 6} {
		if months <= float64(s) {
			return s
		}
	}
	return 12
}
