package canvas

import (
	"image/color"

	"weekband/render/plane"
)

// Look is how ground is painted: a tone and a pattern drawn over it.
type Look struct {
	Tone    color.NRGBA
	Pattern Pattern
	Cased   bool // the pattern is dark on a light casing, to show on any ground
	Edged   bool // a line runs around it, where neither tone nor pattern tells it from its neighbours
}

// Paint fills a path with the tone and the pattern. A unit is the size of body
// text in layout pixels, which the pattern goes by.
func (l Look) Paint(c Canvas, path *plane.Path, unit float64) {
	c.Fill(path, l.Tone)
	if l.Edged {
		c.Stroke(path, Pen{Color: LesserInk, Width: max(0.7, 0.05*unit)})
	}
	l.PaintPattern(c, path, unit)
}

// PaintPattern is paint of the pattern alone.
func (l Look) PaintPattern(c Canvas, path *plane.Path, unit float64) {
	if l.Pattern == Plain {
		return
	}
	t := l.Pattern.texture(unit)
	if t.Dotted {
		c.Dots(t.Dots(path), t.Radius(), TextureInk(l.Tone))
		return
	}
	lines, pen := t.Lines(path), Pen{Color: TextureInk(l.Tone), Width: max(0.8, unit*0.07)}
	if l.Cased {
		c.Stroke(lines, Pen{Color: Casing, Width: 2.6 * pen.Width})
		pen.Color = LineInk
	}
	c.Stroke(lines, pen)
}
