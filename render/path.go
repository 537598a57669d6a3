package render

import "weekband/render/carto"

// Path is a set of lines in layout pixels. The zero value is empty.
type Path struct {
	lines []line
}

type line struct {
	points []carto.Pixel
	closed bool
}

// Add appends an open line. Lines of fewer than two points are left out.
func (p *Path) Add(points ...carto.Pixel) {
	if len(points) > 1 {
		p.lines = append(p.lines, line{points: points})
	}
}

// AddRing appends a closed line; the last point is joined to the first, which
// is not repeated. Rings of fewer than three points are left out.
func (p *Path) AddRing(points ...carto.Pixel) {
	if len(points) > 2 {
		p.lines = append(p.lines, line{points: points, closed: true})
	}
}

// AddRect appends the outline of a rectangle.
func (p *Path) AddRect(r Rect) {
	p.AddRing(carto.Pixel{X: r.Left, Y: r.Top}, carto.Pixel{X: r.Right, Y: r.Top},
		carto.Pixel{X: r.Right, Y: r.Bottom}, carto.Pixel{X: r.Left, Y: r.Bottom})
}

// Append appends the lines of another path.
func (p *Path) Append(o *Path) { p.lines = append(p.lines, o.lines...) }

// Empty reports whether the path has no lines.
func (p *Path) Empty() bool { return len(p.lines) == 0 }

// Bounds returns the smallest rectangle around the path, the zero Rect when
// it is empty.
func (p *Path) Bounds() Rect {
	if p.Empty() {
		return Rect{}
	}
	first := p.lines[0].points[0]
	left, right, top, bottom := first.X, first.X, first.Y, first.Y
	for _, l := range p.lines {
		for _, q := range l.points {
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

// moved returns the path shifted by d.
func (p *Path) moved(d carto.Pixel) *Path {
	out := Path{lines: make([]line, len(p.lines))}
	for i, l := range p.lines {
		out.lines[i] = line{points: movedPoints(l.points, d), closed: l.closed}
	}
	return &out
}

func movedPoints(list []carto.Pixel, d carto.Pixel) []carto.Pixel {
	out := make([]carto.Pixel, len(list))
	for i, q := range list {
		out[i] = carto.Pixel{X: q.X + d.X, Y: q.Y + d.Y}
	}
	return out
}

// rect returns the rectangle the path is, if it is one made by rectPath.
func (p *Path) rect() (r Rect, ok bool) {
	if len(p.lines) != 1 || !p.lines[0].closed || len(p.lines[0].points) != 4 {
		return Rect{}, false
	}
	q := p.lines[0].points
	return Rect{Left: q[0].X, Top: q[0].Y, Right: q[2].X, Bottom: q[2].Y},
		q[0].Y == q[1].Y && q[1].X == q[2].X && q[2].Y == q[3].Y && q[3].X == q[0].X && q[0].X < q[2].X && q[0].Y < q[2].Y
}

// rectPath returns the outline of a rectangle.
func rectPath(r Rect) *Path {
	var p Path
	p.AddRect(r)
	return &p
}

// rule returns the level line at a height.
func rule(left, right, y float64) *Path {
	var p Path
	p.Add(carto.Pixel{X: left, Y: y}, carto.Pixel{X: right, Y: y})
	return &p
}

// touches reports whether a corner of the path lies in a box.
func (p *Path) touches(box Rect) bool {
	for _, l := range p.lines {
		for _, q := range l.points {
			if box.Contains(q) {
				return true
			}
		}
	}
	return false
}
