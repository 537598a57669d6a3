package render

import (
	"image/color"

	"weekband/render/carto"
)

// Page is a finished page: what to draw, in order, and where it stands. The
// zero value is an empty page without extent, on which words can be measured.
type Page struct {
	Layout Layout
	grey   bool
	legend []color.NRGBA // its colours
	colors int           // of its pictures, 0 for the usual number
	steps  []func(Canvas)

	title  int     // how many of the steps draw the title; 0: none is apart
	head   float64 // where what they draw ends, from the top
	keeper Keeper  // of finished pictures, nil for none
}

// newPage returns a page with nothing on it, of a size in layout pixels, in
// grey or colour. A height not known yet may be set in its Layout later.
// Finished pictures go through the keeper, unless it is nil.
func newPage(width, height float64, grey bool, k Keeper) *Page {
	return &Page{Layout: Layout{Width: width, Height: height}, grey: grey, keeper: k}
}

// Draw draws the page on a canvas of its size.
func (p *Page) Draw(c Canvas) { p.draw(c, p.steps) }

// draw draws some steps of the page.
func (p *Page) draw(c Canvas, steps []func(Canvas)) {
	if p.grey {
		c = inGrey(c)
	}
	c.Fill(rectPath(Rect{Right: p.Layout.Width, Bottom: p.Layout.Height}), paper)
	for _, step := range steps {
		step(c)
	}
}

// do adds a step to what is drawn.
func (p *Page) do(step func(Canvas)) { p.steps = append(p.steps, step) }

// elsewhere runs add; the steps that it adds are drawn shifted by a distance in
// layout pixels.
func (p *Page) elsewhere(by carto.Pixel, add func()) {
	first := len(p.steps)
	add()
	steps := p.steps[first:]
	p.steps = append(p.steps[:first:first], func(c Canvas) {
		c = shiftedBy(c, by)
		for _, step := range steps {
			step(c)
		}
	})
}

// fill paints a path as a look says, at a unit of that many pixels.
func (p *Page) fill(path *Path, l look, unit float64) {
	p.do(func(c Canvas) { l.paint(c, path, unit) })
}

// stroke draws along a path.
func (p *Page) stroke(path *Path, pen Pen) { p.do(func(c Canvas) { c.Stroke(path, pen) }) }

// text writes a line and notes its place.
func (p *Page) text(kind Kind, t Text) {
	p.note(kind, t)
	p.do(func(c Canvas) { c.Text(t) })
}

// note notes the place of a line that another step writes.
func (p *Page) note(kind Kind, t Text) {
	p.Layout.Boxes = append(p.Layout.Boxes, Box{Kind: kind, Text: t.String, Rect: t.Bounds()})
}

// paragraph writes wrapped lines from a top left corner and returns the y
// under them.
func (p *Page) paragraph(kind Kind, text string, t Text, width float64) float64 {
	y := t.At.Y
	for _, line := range wrap(text, t.Font, width) {
		t.String = line
		at := t
		at.At.Y = y + t.Font.Ascent()
		p.text(kind, at)
		y += t.Font.Line()
	}
	return y
}

// lines writes lines from a top left corner and returns the y under them.
func (p *Page) lines(kind Kind, lines []string, t Text) float64 {
	y := t.At.Y
	for _, line := range lines {
		at := t
		at.String, at.At.Y = line, y+t.Font.Ascent()
		p.text(kind, at)
		y += t.Font.Line()
	}
	return y
}

// swatch draws a sample of a look with a thin outline at a unit of u pixels. Its
// tone then stays what it is in pictures of few colours.
func (p *Page) swatch(r Rect, l look, u float64) {
	p.legend = append(p.legend, l.tone)
	path := rectPath(r)
	p.fill(path, l, u)
	p.stroke(path, Pen{Color: borderInk, Width: max(0.7, 0.05*u)})
}

// fewColors makes the page's pictures have at most so many colours, 1 to 256,
// unless that moves one of them too far.
func (p *Page) fewColors(most int) { p.colors = most }

// endHead says that the steps so far are the page's head, which pages with
// another title do not share, at a unit of u pixels, and that what follows
// begins at y, which header returned. A page with a logo has no head: its
// colours are the picture's too.
func (p *Page) endHead(y, u float64) {
	if p.Layout.Logo == (Rect{}) {
		p.head, p.title = y-headGap*u/2, len(p.steps)
	}
}
