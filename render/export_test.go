package render

import "image"

// Image returns the painting as it was painted, to compare with.
func (p *Painting) Image() *image.RGBA { return p.image() }
