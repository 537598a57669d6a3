package render

import "io"

// PNG writes the page as a PNG image with scale image pixels per layout
// pixel: 1 for a screen, 2 for a dense screen or print. The same page gives
// the same bytes. It returns the errors of w, and one when scale is not
// between 0.5 and 4.
func (p *Page) PNG(w io.Writer, scale float64) error {
	painting, err := p.Paint(scale)
	if err != nil {
		return err
	}
	return painting.encode(w, reduce([]*Painting{painting}, paletteSize))
}
