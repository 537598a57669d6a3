package render

import (
	"image/png"
	"io"
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
func (p *Page) PNG(w io.Writer, scale float64) error {
	painting, err := p.Paint(scale)
	if err != nil {
		return err
	}
	return painting.encode(w, p.reduced(painting))
}

// reduced returns the colours of a painting of the page: few where the page
// asks for few and they suffice.
func (p *Page) reduced(painting *Painting) reduction {
	if p.colors > 0 {
		if r := reduce([]*Painting{painting}, p.colors, p.tones()); r.moved <= mostMoved {
			return r
		}
	}
	return reduce([]*Painting{painting}, paletteSize, p.tones())
}

// tones are the colours of the legend as the page shows them; however rare,
// they stay what the map has.
func (p *Page) tones() map[rgb]bool {
	keep := map[rgb]bool{}
	for _, c := range p.legend {
		if p.grey {
			c = greyOf(c)
		}
		keep[rgb(c.R)<<16|rgb(c.G)<<8|rgb(c.B)] = true
	}
	return keep
}

// screenColors is how many colours a picture for pages has at most: the tones
// of the legend and what the eye tells apart on the rims of lines and slopes.
const screenColors = 64

// ScreenPNG is PNG for a page that must come quickly: with at most 64 colours,
// of which those of the legend are exact. It takes a third of the bytes of a
// picture in full colours.
func (p *Page) ScreenPNG(w io.Writer, scale float64) error {
	painting, err := p.Paint(scale)
	if err != nil {
		return err
	}
	return png.Encode(w, painting.paletted(reduce([]*Painting{painting}, screenColors, p.tones())))
}
