package daychart

import (
	"math"

	"weekband/grid/season"
	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
)

// draw draws the chart into a room, as large as its width lets it be, and
// returns the y under it and the scale of its dots.
func (m Agreement) draw(p *press.Page, u float64, room plane.Rect) (under, scale float64) {
	font := press.SampleFont(u)
	title := canvas.Text{At: room.TopLeft(), String: m.Language.Chart.Up, Font: font, Color: canvas.TextInk}
	top := math.Ceil(p.Paragraph(press.AxisText, m.Language.Chart.Up, title, room.Width()) + float64(0.5*u))
	room.Top = top
	axes := m.axes(u, room)
	frame := axes.frame
	p.Layout.Frame = frame
	p.Fill(plane.RectPath(frame), canvas.Look{Tone: canvas.BareGround}, u)
	axes.tolerances(p, u)
	axes.words(p, u)
	marks := m.marks(axes, u)
	dots(p, marks, u)
	m.names(p, axes, marks, u)
	bottom := axes.labels(p, u) + float64(0.25*u)
	p.Text(press.AxisText, canvas.Text{At: plane.Pixel{X: frame.Right, Y: bottom + font.Ascent()}, Anchor: canvas.End, String: m.Language.Chart.Across, Font: font, Color: canvas.TextInk})
	return bottom + font.Line(), dotScale(len(m.Points), axes, u)
}

// axes returns the axes of the largest frame in a room, at its top, with the
// labels left and right of it.
func (m Agreement) axes(u float64, room plane.Rect) dayAxes {
	a := m.axesWith(u, room, true)
	if a.roomy(u) {
		return a
	}
	return m.axesWith(u, room, false)
}

// axesWith returns the axes with days numbered or not.
func (m Agreement) axesWith(u float64, room plane.Rect, daily bool) dayAxes {
	left := room.Left + dayAxes{daily: daily, lang: m.Language}.gutter(u)
	side := math.Floor(room.Right - left - bandGutter(u, m.Language))
	a := newDayAxes(plane.Rect{Left: left, Right: left + side, Top: room.Top, Bottom: room.Top + side}, m.days())
	a.daily, a.lang = daily, m.Language
	return a
}

// days returns all days that the axes must show.
func (m Agreement) days() []season.Day {
	var days []season.Day
	for _, p := range m.Points {
		days = append(days, p.Typical, p.Low, p.High)
	}
	return days
}
