package plane

// Path is a set of lines in layout pixels. The zero value is empty. What is
// inside, its closed lines wind around: holes run against their outer ring.
type Path struct {
	Lines []Line // to be read; Add and AddRing keep them whole
}

// Line is a line of two points or more, or a closed one of three or more,
// whose last point is joined to the first and does not repeat it.
type Line struct {
	Points []Pixel
	Closed bool
}

// Add appends an open line. Lines of fewer than two points are left out.
func (p *Path) Add(points ...Pixel) {
	if len(points) > 1 {
		p.Lines = append(p.Lines, Line{Points: points})
	}
}

// AddRing appends a closed line; the last point is joined to the first, which
// is not repeated. Rings of fewer than three points are left out.
func (p *Path) AddRing(points ...Pixel) {
	if len(points) > 2 {
		p.Lines = append(p.Lines, Line{Points: points, Closed: true})
	}
}

// AddRect appends the outline of a rectangle.
func (p *Path) AddRect(r Rect) {
	p.AddRing(Pixel{X: r.Left, Y: r.Top}, Pixel{X: r.Right, Y: r.Top},
		Pixel{X: r.Right, Y: r.Bottom}, Pixel{X: r.Left, Y: r.Bottom})
}

// Append appends the lines of another path, which shares its points.
func (p *Path) Append(o *Path) { p.Lines = append(p.Lines, o.Lines...) }

// Empty reports whether the path has no lines.
func (p *Path) Empty() bool { return len(p.Lines) == 0 }

// Bounds returns the smallest rectangle around the path, the zero Rect when
// it is empty.
func (p *Path) Bounds() Rect {
	if p.Empty() {
		return Rect{}
	}
	first := p.Lines[0].Points[0]
	left, right, top, bottom := first.X, first.X, first.Y, first.Y
	for _, l := range p.Lines {
		for _, q := range l.Points {
			if q.X < left {
				left = q.X
			} else if q.X > right {
				right = q.X
			}
			if q.Y < top {
				top = q.Y
			} else if q.Y > bottom {
				bottom = q.Y
			}
		}
	}
	return Rect{Left: left, Right: right, Top: top, Bottom: bottom}
}

// Moved returns the path shifted by d pixels.
func (p *Path) Moved(d Pixel) *Path {
	out := Path{Lines: make([]Line, len(p.Lines))}
	for i, l := range p.Lines {
		out.Lines[i] = Line{Points: MovePixels(l.Points, d), Closed: l.Closed}
	}
	return &out
}

// MovePixels returns places shifted by d pixels.
func MovePixels(list []Pixel, d Pixel) []Pixel {
	out := make([]Pixel, len(list))
	for i, q := range list {
		out[i] = Pixel{X: q.X + d.X, Y: q.Y + d.Y}
	}
	return out
}

// AsRect returns the rectangle the path is; ok is false unless it is one as
// RectPath makes it, with an area.
func (p *Path) AsRect() (r Rect, ok bool) {
	if len(p.Lines) != 1 || !p.Lines[0].Closed || len(p.Lines[0].Points) != 4 {
		return Rect{}, false
	}
	q := p.Lines[0].Points
	return Rect{Left: q[0].X, Top: q[0].Y, Right: q[2].X, Bottom: q[2].Y},
		q[0].Y == q[1].Y && q[1].X == q[2].X && q[2].Y == q[3].Y && q[3].X == q[0].X && q[0].X < q[2].X && q[0].Y < q[2].Y
}

// RectPath returns the outline of a rectangle.
func RectPath(r Rect) *Path {
	var p Path
	p.AddRect(r)
	return &p
}

// LevelLine returns the line from left to right at the height y.
func LevelLine(left, right, y float64) *Path {
	var p Path
	p.Add(Pixel{X: left, Y: y}, Pixel{X: right, Y: y})
	return &p
}

// Touches reports whether a point of the path lies in a box, edges included.
// A line that only passes through the box does not touch it.
func (p *Path) Touches(box Rect) bool {
	for _, l := range p.Lines {
		for _, q := range l.Points {
			if box.Contains(q) {
				return true
			}
		}
	}
	return false
}
