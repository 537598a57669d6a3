package daychart

import (
	"image/color"
	"math"

	"weekband/grid/season"
	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
	"weekband/render/wording"
)

// Colours of the chart. In grey the bands fall in lightness towards the line
// of the same day; the lines at their edges keep 3:1 on either side (WCAG
// 2.2, SC 1.4.11).
var (
	weekTone     = canvas.OKLCh(0.90, 0.06, 88)
	twoWeeksTone = canvas.OKLCh(0.955, 0.035, 88)
	edgeInk      = canvas.OKLCh(0.55, 0.03, 80)
)

// tolerance is a band of days around the line of the same day.
type tolerance struct {
	days   season.Day
	tone   color.NRGBA
	dashed bool // its edges
}

// tolerances from the widest to the narrowest, the order of painting and of
// their words in a Language.
var tolerances = [...]tolerance{
	{days: 14, tone: twoWeeksTone, dashed: true},
	{days: 7, tone: weekTone},
}

// shape returns the band within the frame; it is narrower than the axes.
func (b tolerance) shape(a dayAxes) *plane.Path {
	var p plane.Path
	p.AddRing(a.at(a.from, a.from), a.at(a.from+b.days, a.from), a.at(a.to, a.to-b.days),
		a.at(a.to, a.to), a.at(a.to-b.days, a.to), a.at(a.from, a.from+b.days))
	return &p
}

// edges returns the lines of so many days' departure.
func (b tolerance) edges(a dayAxes, u float64) *plane.Path {
	var p plane.Path
	for _, ends := range [...][2]plane.Pixel{
		{a.at(a.from+b.days, a.from), a.at(a.to, a.to-b.days)},
		{a.at(a.from, a.from+b.days), a.at(a.to-b.days, a.to)},
	} {
		p.Append(b.edge(ends[0], ends[1], u))
	}
	return &p
}

// edge returns the line of an edge from one place to another.
func (b tolerance) edge(from, to plane.Pixel, u float64) *plane.Path {
	if b.dashed {
		return dashes(from, to, 0.55*u, 0.4*u)
	}
	var p plane.Path
	p.Add(from, to)
	return &p
}

// dashes returns the line from one place to another as dashes with gaps, in
// pixels.
func dashes(from, to plane.Pixel, dash, gap float64) *plane.Path {
	var p plane.Path
	far := math.Hypot(to.X-from.X, to.Y-from.Y)
	at := func(d float64) plane.Pixel {
		f := min(d, far) / far
		return plane.Pixel{X: from.X + float64(f*(to.X-from.X)), Y: from.Y + float64(f*(to.Y-from.Y))}
	}
	for d := 0.0; d < far; d += dash + gap {
		p.Add(at(d), at(d+dash))
	}
	return &p
}

func edgePen(u float64) canvas.Pen { return canvas.Pen{Color: edgeInk, Width: max(1, 0.07*u)} }

func samePen(u float64) canvas.Pen { return canvas.Pen{Color: canvas.LineInk, Width: max(1.2, 0.11*u)} }

// tolerances paints the bands; their edges and the line of the same day come
// after the lines of the months.
func (a dayAxes) tolerances(p *press.Page, u float64) {
	for _, b := range tolerances {
		p.Fill(b.shape(a), canvas.Look{Tone: b.tone}, u)
	}
	a.lines(p, u)
	for _, b := range tolerances {
		p.Stroke(b.edges(a, u), edgePen(u))
	}
	var same plane.Path
	same.Add(a.at(a.from, a.from), a.at(a.to, a.to))
	p.Stroke(&same, samePen(u))
}

// bandGutter is the room right of a frame for the words of the bands.
func bandGutter(u float64, lang *wording.Language) float64 {
	width := press.SampleFont(u).Width(lang.Chart.SameDay)
	for _, words := range lang.Chart.Within {
		width = max(width, press.SampleFont(u).Width(words.Beside))
	}
	return math.Ceil(width + float64(1.3*u))
}

// words writes what the bands mean where their lower edges end, right of the
// frame, each tied to its edge by a line.
func (a dayAxes) words(p *press.Page, u float64) {
	font := press.SampleFont(u)
	least := math.Inf(-1) // the next baseline
	var ties plane.Path
	write := func(days season.Day, words string) {
		end := a.at(a.to, a.to-days)
		t := canvas.Text{At: plane.Pixel{X: end.X + float64(1.1*u), Y: max(end.Y+font.Middle(), least)}, String: words, Font: font, Color: canvas.TextInk}
		ties.Add(end, plane.Pixel{X: end.X + float64(0.3*u), Y: end.Y}, plane.Pixel{X: end.X + float64(0.85*u), Y: t.At.Y - font.Middle()})
		p.Text(press.AxisText, t)
		least = t.At.Y + float64(font.Size*1.2)
	}
	write(0, a.lang.Chart.SameDay)
	for i := len(tolerances) - 1; i >= 0; i-- {
		write(tolerances[i].days, a.lang.Chart.Within[i].Beside)
	}
	p.Stroke(&ties, canvas.Pen{Color: canvas.LesserInk, Width: max(1, 0.07*u)})
}
