package render

import "weekband/render/carto"

// emptiest returns a box of a size in the corner of the frame with the least
// land and nothing else in it; the zero size gives the zero Rect.
func (p *placer) emptiest(size carto.Pixel) Rect {
	if size == (carto.Pixel{}) {
		return Rect{}
	}
	corners := p.corners(size)
	best, least := corners[0], 2.0
	for _, c := range corners {
		load := p.land.share(c)
		if !p.free(c) {
			load++
		}
		if load < least-1e-9 {
			best, least = c, load
		}
	}
	return best
}

// corners returns boxes of a size in the corners of the frame: lower left and
// right, upper left and right.
func (p *placer) corners(size carto.Pixel) [4]Rect { return p.frame.Grow(-p.unit * 0.6).corners(size) }

// along returns boxes of a size along the edges of the frame, a unit apart.
func (p *placer) along(size carto.Pixel) []Rect {
	f := p.frame.Grow(-p.unit * 0.6)
	var out []Rect
	add := func(x, y float64) {
		out = append(out, Rect{Left: x, Top: y, Right: x + size.X, Bottom: y + size.Y})
	}
	for x := f.Left; x+size.X <= f.Right; x += p.unit {
		add(x, f.Bottom-size.Y)
		add(x, f.Top)
	}
	for y := f.Top; y+size.Y <= f.Bottom; y += p.unit {
		add(f.Left, y)
		add(f.Right-size.X, y)
	}
	return out
}
