package plane

// CutTo returns the closed lines of a path cut to a rectangle, edge by edge
// (Sutherland & Hodgman 1974). Lines in several parts stay joined along the
// rectangle. Where two lines share an edge, both are cut at the same place.
func (p *Path) CutTo(r Rect) *Path {
	var out Path
	for _, l := range p.Lines {
		if !l.Closed {
			continue
		}
		points := l.Points
		for _, side := range sidesOf(r) {
			if points = side.cut(points); len(points) < 3 {
				break
			}
		}
		out.AddRing(points...)
	}
	return &out
}

// side is a line across the page: what lies at or beyond it is kept.
type side struct {
	upright bool    // x matters, not y
	at      float64 // px
	sign    float64 // 1 keeps what is more, −1 what is less
}

func sidesOf(r Rect) [4]side {
	return [...]side{{true, r.Left, 1}, {true, r.Right, -1}, {false, r.Top, 1}, {false, r.Bottom, -1}}
}

// beyond is how far inside a place is.
func (s side) beyond(q Pixel) float64 {
	if s.upright {
		return s.sign * (q.X - s.at)
	}
	return s.sign * (q.Y - s.at)
}

// cut returns the part of a ring inside; the ring itself when that is all.
func (s side) cut(ring []Pixel) []Pixel {
	all := true
	for _, q := range ring {
		if s.beyond(q) < 0 {
			all = false
			break
		}
	}
	if all || len(ring) == 0 {
		return ring
	}
	var out []Pixel
	a := ring[len(ring)-1]
	for _, b := range ring {
		in, next := s.beyond(a) >= 0, s.beyond(b) >= 0
		if in != next {
			out = append(out, s.meet(a, b))
		}
		if next {
			out = append(out, b)
		}
		a = b
	}
	return out
}

// meet returns where the edge between two places passes the line, the same
// from either end.
func (s side) meet(a, b Pixel) Pixel {
	if a.X > b.X || a.X == b.X && a.Y > b.Y {
		a, b = b, a
	}
	f := s.beyond(a) / (s.beyond(a) - s.beyond(b))
	if s.upright {
		return Pixel{X: s.at, Y: a.Y + float64(f*(b.Y-a.Y))}
	}
	return Pixel{X: a.X + float64(f*(b.X-a.X)), Y: s.at}
}
