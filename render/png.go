package render

import (
	"fmt"
	"image/png"
	"io"
)

// PNG writes the page as a PNG image with scale image pixels per layout
// pixel: 1 for a screen, 2 for a dense screen or print. The same page gives
// the same bytes. It returns the errors of w, and one when scale is not
// between 0.5 and 4.
func (p *Page) PNG(w io.Writer, scale float64) error {
	if !(scale >= 0.5 && scale <= 4) {
		return fmt.Errorf("render: %g image pixels per layout pixel; want 0.5 to 4", scale)
	}
	b := newBitmap(p.Layout.Width, p.Layout.Height, scale)
	p.Draw(b)
	if small, ok := paletted(b.image(), p.tones()); ok {
		return png.Encode(w, small)
	}
	return png.Encode(w, b.image())
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
