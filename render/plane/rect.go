package plane

// Rect is a rectangle in layout pixels, Y down: Top < Bottom.
type Rect struct{ Left, Top, Right, Bottom float64 }

// Width returns the width in pixels.
func (r Rect) Width() float64 { return r.Right - r.Left }

// Height returns the height in pixels.
func (r Rect) Height() float64 { return r.Bottom - r.Top }

// Center returns the place in the middle.
func (r Rect) Center() Pixel {
	return Pixel{X: (r.Left + r.Right) / 2, Y: (r.Top + r.Bottom) / 2}
}

// TopLeft returns the top left corner.
func (r Rect) TopLeft() Pixel { return Pixel{X: r.Left, Y: r.Top} }

// Overlaps reports whether the rectangles share some area.
func (r Rect) Overlaps(o Rect) bool {
	return r.Left < o.Right && o.Left < r.Right && r.Top < o.Bottom && o.Top < r.Bottom
}

// Within reports whether r lies in o, edges included.
func (r Rect) Within(o Rect) bool {
	return r.Left >= o.Left && r.Right <= o.Right && r.Top >= o.Top && r.Bottom <= o.Bottom
}

// Contains reports whether p lies in the rectangle, edges included.
func (r Rect) Contains(p Pixel) bool {
	return p.X >= r.Left && p.X <= r.Right && p.Y >= r.Top && p.Y <= r.Bottom
}

// Corners returns boxes of a size in the corners: lower left and right, upper
// left and right.
func (r Rect) Corners(size Pixel) [4]Rect {
	return [...]Rect{
		{Left: r.Left, Top: r.Bottom - size.Y, Right: r.Left + size.X, Bottom: r.Bottom},
		{Left: r.Right - size.X, Top: r.Bottom - size.Y, Right: r.Right, Bottom: r.Bottom},
		{Left: r.Left, Top: r.Top, Right: r.Left + size.X, Bottom: r.Top + size.Y},
		{Left: r.Right - size.X, Top: r.Top, Right: r.Right, Bottom: r.Top + size.Y},
	}
}

// Grow returns the rectangle with d pixels more on every side.
func (r Rect) Grow(d float64) Rect {
	d = float64(d) // rounded, as it may be a product
	return Rect{Left: r.Left - d, Top: r.Top - d, Right: r.Right + d, Bottom: r.Bottom + d}
}
