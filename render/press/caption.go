package press

import (
	"image"
	"math"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// Caption holds the words around a map or a chart. Empty ones take no room.
// Each is wrapped to the width; a line break in one stays.
type Caption struct {
	Title    string
	Subtitle string       // such as "Typical week when soil at 4 in reaches 55 °F, warming"
	Source   string       // data, credit and period
	Cautions []string     // one paragraph each
	Logo     *image.NRGBA // beside the title, small; nil for none. It must not change
}

// headGap is how far the rest of a page keeps from its title, in units.
const headGap = 0.7

// Header writes title and subtitle at the top of a room, beside them the logo,
// at a unit of u pixels, and returns the y at which what follows begins.
func (p *Page) Header(c Caption, u float64, room plane.Rect) float64 {
	logo := p.logo(c.Logo, u, room)
	if logo != (plane.Rect{}) {
		room.Right = logo.Left - u
	}
	y := room.Top
	y = p.heading(c.Title, canvas.Text{At: plane.Pixel{X: room.Left, Y: y}, Font: canvas.Font{Face: canvas.Heading, Size: 2 * u}, Color: canvas.TextInk}, room.Width())
	if c.Subtitle != "" {
		y = p.heading(c.Subtitle, canvas.Text{At: plane.Pixel{X: room.Left, Y: y + float64(0.1*u)}, Font: canvas.Font{Face: canvas.Regular, Size: 1.12 * u}, Color: canvas.LesserInk}, room.Width())
	}
	return math.Round(max(y, logo.Bottom) + float64(headGap*u))
}

// headingLines is how many lines a title or subtitle takes at most.
const headingLines = 3

// heading writes a title, smaller and if need be cut where it would take too
// many lines, and returns the y under it.
func (p *Page) heading(title string, t canvas.Text, width float64) float64 {
	lines := canvas.Wrap(title, t.Font, width)
	if len(lines) > headingLines {
		room := plane.Rect{Right: width, Bottom: headingLines * t.Font.Line()}
		t.Font, lines = canvas.FitLines(title, t.Font.Face, t.Font.Size, 0.7*t.Font.Size, room)
	}
	return p.Lines(TitleText, lines, t)
}

// Credits writes cautions and source under a line, at a unit of u pixels, and
// returns the y under them.
func (p *Page) Credits(c Caption, u float64, room plane.Rect) float64 {
	y := room.Top
	p.Stroke(plane.LevelLine(room.Left, room.Right, y), canvas.Pen{Color: canvas.GuideInk, Width: max(1, u*0.07)})
	y += float64(0.5 * u)
	for _, caution := range c.Cautions {
		y = p.Paragraph(FooterText, caution, canvas.Text{At: plane.Pixel{X: room.Left, Y: y}, Font: canvas.Font{Face: canvas.Bold, Size: SmallSize(u)}, Color: canvas.TextInk}, room.Width())
	}
	return p.Paragraph(FooterText, c.Source, canvas.Text{At: plane.Pixel{X: room.Left, Y: y + float64(0.15*u)}, Font: canvas.Font{Face: canvas.Regular, Size: SmallSize(u)}, Color: canvas.LesserInk}, room.Width())
}
