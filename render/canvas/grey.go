package canvas

import (
	"image"
	"image/color"

	"weekband/render/plane"
)

// InGrey returns a canvas on which all that is drawn comes out on another in
// greys as light to the eye as the colours.
func InGrey(c Canvas) Canvas { return greyed{to: c} }

// greyed is a Canvas that passes everything on in greys as light to the eye
// as the colours.
type greyed struct{ to Canvas }

func (g greyed) Fill(p *plane.Path, c color.NRGBA) { g.to.Fill(p, GreyOf(c)) }

func (g greyed) Stroke(p *plane.Path, pen Pen) {
	pen.Color = GreyOf(pen.Color)
	g.to.Stroke(p, pen)
}

func (g greyed) Dots(at []plane.Pixel, radius float64, c color.NRGBA) {
	g.to.Dots(at, radius, GreyOf(c))
}

func (g greyed) Mosaic(pieces []Piece) {
	grey := make([]Piece, len(pieces))
	for i, p := range pieces {
		grey[i] = Piece{Shape: p.Shape, Color: GreyOf(p.Color)}
	}
	g.to.Mosaic(grey)
}

func (g greyed) Clip(inside Stencil, draw func(Canvas)) {
	g.to.Clip(inside, func(c Canvas) { draw(greyed{to: c}) })
}

func (g greyed) Image(im *image.NRGBA, r plane.Rect) {
	grey := image.NewNRGBA(im.Rect)
	for i := 0; i < len(im.Pix); i += 4 {
		c := GreyOf(color.NRGBA{R: im.Pix[i], G: im.Pix[i+1], B: im.Pix[i+2], A: im.Pix[i+3]})
		grey.Pix[i], grey.Pix[i+1], grey.Pix[i+2], grey.Pix[i+3] = c.R, c.G, c.B, c.A
	}
	g.to.Image(grey, r)
}

func (g greyed) Text(t Text) {
	t.Color = GreyOf(t.Color)
	g.to.Text(t)
}

func (g greyed) Layer(l *Layer) { g.to.Layer(l.grey) }
