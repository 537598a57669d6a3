package render

import (
	"image"
	"math"

	"weekband/render/carto"
)

// Caption holds the words around a map. Empty ones take no room. Each is
// wrapped to the width; a line break in one stays.
type Caption struct {
	Title    string
	Subtitle string       // such as "Typical week when soil at 4 in reaches 55 °F, warming"
	Source   string       // data, credit and period
	Cautions []string     // one paragraph each
	Logo     *image.NRGBA // beside the title, small; nil for none. It must not change
}

// headGap is how far the rest of a page keeps from its title, in units.
const headGap = 0.7

// header writes title and subtitle, beside them the logo, and returns the y
// under all.
func (p *Page) header(c Caption, u float64, room Rect) float64 {
	logo := p.logo(c.Logo, u, room)
	if logo != (Rect{}) {
		room.Right = logo.Left - u
	}
	y := room.Top
	y = p.heading(c.Title, Text{At: carto.Pixel{X: room.Left, Y: y}, Font: Font{Face: Heading, Size: 2 * u}, Color: textColor}, room.Width())
	if c.Subtitle != "" {
		y = p.heading(c.Subtitle, Text{At: carto.Pixel{X: room.Left, Y: y + float64(0.1*u)}, Font: Font{Face: Regular, Size: 1.12 * u}, Color: lessColor}, room.Width())
	}
	return math.Round(max(y, logo.Bottom) + float64(headGap*u))
}

// headingLines is how many lines a title or subtitle takes at most.
const headingLines = 3

// heading writes a title, smaller and if need be cut where it would take too
// many lines, and returns the y under it.
func (p *Page) heading(title string, t Text, width float64) float64 {
	lines := wrap(title, t.Font, width)
	if len(lines) > headingLines {
		room := Rect{Right: width, Bottom: headingLines * t.Font.Line()}
		t.Font, lines = fittingLines(title, t.Font.Face, t.Font.Size, 0.7*t.Font.Size, room)
	}
	return p.lines(TitleText, lines, t)
}

// credits writes cautions and source and returns the y under them.
func (p *Page) credits(c Caption, u float64, room Rect) float64 {
	y := room.Top
	p.stroke(rule(room.Left, room.Right, y), Pen{Color: gridColor, Width: max(1, u*0.07)})
	y += float64(0.5 * u)
	for _, caution := range c.Cautions {
		y = p.paragraph(FooterText, caution, Text{At: carto.Pixel{X: room.Left, Y: y}, Font: Font{Face: Bold, Size: small(u)}, Color: textColor}, room.Width())
	}
	return p.paragraph(FooterText, c.Source, Text{At: carto.Pixel{X: room.Left, Y: y + float64(0.15*u)}, Font: Font{Face: Regular, Size: small(u)}, Color: lessColor}, room.Width())
}
