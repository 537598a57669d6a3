package render

import "image/color"

// look is how ground is painted: a tone and a pattern drawn over it.
type look struct {
	tone    color.NRGBA
	pattern Pattern
	cased   bool // the pattern is dark on a light casing, to show on any ground
	edged   bool // a line runs around it, where neither tone nor pattern tells it from its neighbours
}

// paint fills a path with the tone and the pattern. A unit is the size of body
// text in layout pixels, which the pattern goes by.
func (l look) paint(c Canvas, path *Path, unit float64) {
	c.Fill(path, l.tone)
	if l.edged {
		c.Stroke(path, Pen{Color: lessColor, Width: max(0.7, 0.05*unit)})
	}
	l.paintPattern(c, path, unit)
}

// paintPattern is paint of the pattern alone.
func (l look) paintPattern(c Canvas, path *Path, unit float64) {
	if l.pattern == Plain {
		return
	}
	t := l.pattern.texture(unit)
	if t.dotted {
		c.Dots(t.dotsIn(path), t.radius(), ink(l.tone))
		return
	}
	lines, pen := t.linesIn(path), Pen{Color: ink(l.tone), Width: max(0.8, unit*0.07)}
	if l.cased {
		c.Stroke(lines, Pen{Color: leaderGlow, Width: 2.6 * pen.Width})
		pen.Color = coastInk
	}
	c.Stroke(lines, pen)
}
