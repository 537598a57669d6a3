package press

import (
	"image/color"
	"io"
	"slices"

	"weekband/render/canvas"
)

// Limits of PNG. A picture takes some ten bytes a pixel while it is drawn, so
// the largest takes 600 MB.
const (
	minScale  = 0.5
	maxScale  = 10
	maxPixels = 60e6
)

// PNG writes the page as a PNG image with scale image pixels per layout
// pixel: 1 for a screen, 2 for a dense screen, PrintScale for print. The same
// page gives the same bytes. It returns the errors of w, and one when scale is
// not between 0.5 and 10 or the image would have more than 60 million pixels.
func (p *Page) PNG(w io.Writer, scale float64) error { return p.png(w, scale) }

// png writes the page as PNG, in a palette unless that moves a colour too far,
// with chunks of its own after the header.
func (p *Page) png(w io.Writer, scale float64, own ...[]byte) error {
	if err := p.checkScale(scale); err != nil {
		return err
	}
	if p.colors > 0 {
		if pic, ok := p.picture(scale, p.colors, false); ok {
			return pic.png(w, own...)
		}
	}
	if pic, ok := p.picture(scale, paletteSize, false); ok {
		return pic.png(w, own...)
	}
	painting, err := p.Paint(scale)
	if err != nil {
		return err
	}
	return painting.png(w, own...)
}

// Tones returns the colours of the legend as the page shows them, each once.
// However rare, they stay what the page has in pictures of few colours.
func (p *Page) Tones() []color.NRGBA {
	var out []color.NRGBA
	for _, c := range p.legend {
		if p.grey {
			c = canvas.GreyOf(c)
		}
		if !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	return out
}

// screenColors is how many colours a picture for pages has at most: the tones
// of the legend and what the eye tells apart on the rims of lines and slopes.
const screenColors = 64

// ScreenPNG is PNG for a page that must come quickly: with at most 64 colours,
// of which those of the legend are exact. It takes a third of the bytes of a
// picture in full colours.
func (p *Page) ScreenPNG(w io.Writer, scale float64) error {
	if err := p.checkScale(scale); err != nil {
		return err
	}
	pic, _ := p.picture(scale, screenColors, true)
	return pic.png(w)
}
