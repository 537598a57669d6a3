package render

import (
	"image/color"

	"weekband/render/carto"
)

// greyed is a Canvas that passes everything on in greys as light to the eye
// as the colours.
type greyed struct{ to Canvas }

func (g greyed) Fill(p *Path, c color.NRGBA) { g.to.Fill(p, greyOf(c)) }

func (g greyed) Stroke(p *Path, pen Pen) {
	pen.Color = greyOf(pen.Color)
	g.to.Stroke(p, pen)
}

func (g greyed) Dots(at []carto.Pixel, radius float64, c color.NRGBA) {
	g.to.Dots(at, radius, greyOf(c))
}

func (g greyed) Mosaic(pieces []Piece) {
	grey := make([]Piece, len(pieces))
	for i, p := range pieces {
		grey[i] = Piece{Shape: p.Shape, Color: greyOf(p.Color)}
	}
	g.to.Mosaic(grey)
}

func (g greyed) Clip(inside *Path, draw func(Canvas)) {
	g.to.Clip(inside, func(c Canvas) { draw(greyed{to: c}) })
}

func (g greyed) Text(t Text) {
	t.Color = greyOf(t.Color)
	g.to.Text(t)
}

func (g greyed) Layer(l *Layer) { g.to.Layer(l.grey) }

// greyOf returns the grey that is as light to the eye, as transparent.
func greyOf(c color.NRGBA) color.NRGBA {
	opaque := c
	opaque.A = 255
	light, _, _ := okOf(opaque)
	grey := oklch(light, 0, 0)
	grey.A = c.A
	return grey
}
