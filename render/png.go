package render

import (
	"fmt"
	"image"
	"image/draw"
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
	if !(scale >= minScale && scale <= maxScale) {
		return fmt.Errorf("render: %g image pixels per layout pixel; want %g to %d", scale, minScale, maxScale)
	}
	if pixels := p.Layout.Width * scale * p.Layout.Height * scale; pixels > maxPixels {
		return fmt.Errorf("render: an image of %.0f million pixels; want at most %.0f: draw it smaller", pixels/1e6, maxPixels/1e6)
	}
	b := newBitmap(p.Layout.Width, p.Layout.Height, scale)
	draw.Draw(b.image(), b.image().Rect, image.NewUniform(paper), image.Point{}, draw.Src) // a last row that is part of a pixel, too
	p.Draw(b)
	if small, ok := paletted(b.image()); ok {
		return png.Encode(w, small)
	}
	return png.Encode(w, b.image())
}
