package press

import (
	"image/color"

	"weekband/render/canvas"
	"weekband/render/plane"
)

// Page is a finished page: what to draw, in order, and where it stands. The
// zero value is an empty page without extent, on which words can be measured.
type Page struct {
	Layout Layout
	grey   bool
	legend []color.NRGBA // its colours
	colors int           // of its pictures, 0 for the usual number
	steps  []func(canvas.Canvas)

	title  int     // how many of the steps draw the title; 0: none is apart
	head   float64 // where what they draw ends, from the top
	keeper Keeper  // of finished pictures, nil for none
}

// NewPage returns a page with nothing on it, of a size in layout pixels, in
// grey or colour. A height not known yet may be set in its Layout later.
// Finished pictures go through the keeper, unless it is nil.
func NewPage(width, height float64, grey bool, k Keeper) *Page {
	return &Page{Layout: Layout{Width: width, Height: height}, grey: grey, keeper: k}
}

// Draw draws the page on a canvas of its size.
func (p *Page) Draw(c canvas.Canvas) { p.draw(c, p.steps) }

// draw draws some steps of the page.
func (p *Page) draw(c canvas.Canvas, steps []func(canvas.Canvas)) {
	if p.grey {
		c = canvas.InGrey(c)
	}
	c.Fill(plane.RectPath(plane.Rect{Right: p.Layout.Width, Bottom: p.Layout.Height}), canvas.Paper)
	for _, step := range steps {
		step(c)
	}
}

// Add adds a step to what is drawn. It may be run several times, by several
// goroutines at a time.
func (p *Page) Add(step func(canvas.Canvas)) { p.steps = append(p.steps, step) }

// Shifted runs add; the steps that it adds are drawn shifted by a distance in
// layout pixels.
func (p *Page) Shifted(by plane.Pixel, add func()) {
	first := len(p.steps)
	add()
	steps := p.steps[first:]
	p.steps = append(p.steps[:first:first], func(c canvas.Canvas) {
		c = canvas.ShiftedBy(c, by)
		for _, step := range steps {
			step(c)
		}
	})
}

// Fill adds a step that paints a path as a look says, at a unit of that many
// pixels.
func (p *Page) Fill(path *plane.Path, l canvas.Look, unit float64) {
	p.Add(func(c canvas.Canvas) { l.Paint(c, path, unit) })
}

// Stroke adds a step that draws along a path.
func (p *Page) Stroke(path *plane.Path, pen canvas.Pen) {
	p.Add(func(c canvas.Canvas) { c.Stroke(path, pen) })
}

// Text adds a step that writes a line, and notes its place.
func (p *Page) Text(kind Kind, t canvas.Text) {
	p.Note(kind, t)
	p.Add(func(c canvas.Canvas) { c.Text(t) })
}

// Note notes the place of a line that another step writes.
func (p *Page) Note(kind Kind, t canvas.Text) {
	p.Layout.Boxes = append(p.Layout.Boxes, Box{Kind: kind, Text: t.String, Rect: t.Bounds()})
}

// Paragraph writes a text wrapped to a width in pixels, from the top left corner
// t.At, and returns the y under it.
func (p *Page) Paragraph(kind Kind, text string, t canvas.Text, width float64) float64 {
	y := t.At.Y
	for _, line := range canvas.Wrap(text, t.Font, width) {
		t.String = line
		at := t
		at.At.Y = y + t.Font.Ascent()
		p.Text(kind, at)
		y += t.Font.Line()
	}
	return y
}

// Lines writes lines from the top left corner t.At and returns the y under them.
func (p *Page) Lines(kind Kind, lines []string, t canvas.Text) float64 {
	y := t.At.Y
	for _, line := range lines {
		at := t
		at.String, at.At.Y = line, y+t.Font.Ascent()
		p.Text(kind, at)
		y += t.Font.Line()
	}
	return y
}

// Swatch draws a sample of a look with a thin outline at a unit of u pixels. Its
// tone then stays what it is in pictures of few colours.
func (p *Page) Swatch(r plane.Rect, l canvas.Look, u float64) {
	p.legend = append(p.legend, l.Tone)
	path := plane.RectPath(r)
	p.Fill(path, l, u)
	p.Stroke(path, canvas.Pen{Color: canvas.FineInk, Width: max(0.7, 0.05*u)})
}

// FewColors makes the page's pictures have at most so many colours, 1 to 256,
// unless that moves one of them too far.
func (p *Page) FewColors(most int) { p.colors = most }

// EndHead says that the steps so far are the page's head, which pages with
// another title do not share, at a unit of u pixels, and that what follows
// begins at y, which Header returned. A page with a logo has no head: its
// colours are the picture's too.
func (p *Page) EndHead(y, u float64) {
	if p.Layout.Logo == (plane.Rect{}) {
		p.head, p.title = y-headGap*u/2, len(p.steps)
	}
}
