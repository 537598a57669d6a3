package render

import (
	"image/color"
	"math"

	"weekband/grid"
	"weekband/render/carto"
	"weekband/render/wording"
)

// Page is a finished page: what to draw, in order, and where it stands.
type Page struct {
	Layout Layout
	lang   *wording.Language
	grey   bool
	legend []color.NRGBA // its colours
	view   view
	insets []window
	colors int // of its pictures, 0 for the usual number
	steps  []func(Canvas)

	title  int     // how many of the steps draw the title; 0: none is apart
	head   float64 // where what they draw ends, from the top
	keeper Keeper  // of finished pictures, nil for none
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

// Pixel returns where a position stands on the page, in layout pixels; it may
// lie outside the frame, and is never in an inset. A Sheet, which holds many maps, and a chart have no
// such places; they panic.
func (p *Page) Pixel(at grid.LonLat) carto.Pixel {
	return p.view.screen.Pixel(p.view.projection.Forward(at))
}

func (p *Page) do(step func(Canvas)) { p.steps = append(p.steps, step) }

func (p *Page) fill(path *Path, l look, unit float64) {
	p.do(func(c Canvas) { l.paint(c, path, unit) })
}

func (p *Page) stroke(path *Path, pen Pen) { p.do(func(c Canvas) { c.Stroke(path, pen) }) }

// text writes a line and notes its place.
func (p *Page) text(kind Kind, t Text) {
	p.Layout.Boxes = append(p.Layout.Boxes, Box{Kind: kind, Text: t.String, Rect: t.Bounds()})
	p.do(func(c Canvas) { c.Text(t) })
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

// unitOf returns the size of body text for a page width: 13 px at 900, 18 at
// 1600, 23 at 2400. Print at full width keeps it readable, and no text made
// from it falls under minText. It is rounded, because powers differ from
// machine to machine in their last bits, and with them where words stand.
func unitOf(width float64) float64 {
	return max(minText, float64(float32(13*math.Pow(width/900, 0.6))))
}

// small is the size of the least text on the page.
func small(unit float64) float64 { return max(minText, unit*0.85) }
