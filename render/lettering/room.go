package lettering

import "weekband/render/plane"

// Emptiest returns a box of a size in the corner of the frame with the least
// land and nothing else in it; the zero size gives the zero Rect.
func (p *Placer) Emptiest(size plane.Pixel) plane.Rect {
	if size == (plane.Pixel{}) {
		return plane.Rect{}
	}
	corners := p.Corners(size)
	best, least := corners[0], 2.0
	for _, c := range corners {
		load := p.land.Share(c)
		if !p.Free(c) {
			load++
		}
		if load < least-1e-9 {
			best, least = c, load
		}
	}
	return best
}

// Corners returns boxes of a size in the corners of the frame: lower left and
// right, upper left and right.
func (p *Placer) Corners(size plane.Pixel) [4]plane.Rect {
	return p.frame.Grow(-p.unit * 0.6).Corners(size)
}

// Along returns boxes of a size along the edges of the frame, a unit apart.
func (p *Placer) Along(size plane.Pixel) []plane.Rect {
	f := p.frame.Grow(-p.unit * 0.6)
	var out []plane.Rect
	add := func(x, y float64) {
		out = append(out, plane.Rect{Left: x, Top: y, Right: x + size.X, Bottom: y + size.Y})
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
