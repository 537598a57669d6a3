package plane

import (
	"container/heap"
	"math"
)

// Widest returns the place inside a shape that is farthest from its outline,
// the pole of inaccessibility, and that distance in pixels, to within half a
// pixel. It covers the shape with squares and splits those that may still
// hold a better place (the branch and bound of Garcia-Castellanos & Lombardo
// 2007 for a plane). ok is false for a shape without rings.
func Widest(shape *Path) (best Pixel, distance float64, ok bool) {
	const precision = 0.5
	box := shape.Bounds()
	side := min(box.Width(), box.Height())
	if side <= 0 {
		return Pixel{}, 0, false
	}
	var queue squares
	add := func(x, y, half float64) {
		c := Pixel{X: x, Y: y}
		d := depth(shape, c)
		if d > distance {
			best, distance = c, d
		}
		if reach := d + float64(half*math.Sqrt2); reach > distance+precision {
			heap.Push(&queue, square{at: c, half: half, reach: reach})
		}
	}
	for x := box.Left; x < box.Right; x += side {
		for y := box.Top; y < box.Bottom; y += side {
			add(x+side/2, y+side/2, side/2)
		}
	}
	for queue.Len() > 0 {
		s := heap.Pop(&queue).(square)
		if s.reach <= distance+precision {
			break
		}
		h := s.half / 2
		for _, d := range [...]Pixel{{X: -h, Y: -h}, {X: h, Y: -h}, {X: -h, Y: h}, {X: h, Y: h}} {
			add(s.at.X+d.X, s.at.Y+d.Y, h)
		}
	}
	return best, distance, distance > 0
}

// depth is the distance of a place from the outline of a shape, negative
// outside.
func depth(shape *Path, p Pixel) float64 {
	least := math.Inf(1)
	wind := 0
	for _, l := range shape.Lines {
		a := l.Points[len(l.Points)-1]
		for _, b := range l.Points {
			least = min(least, squareDistance(p, a, b))
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+float64((p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X)) {
				if b.Y > a.Y {
					wind++
				} else {
					wind--
				}
			}
			a = b
		}
	}
	if wind == 0 {
		return -math.Sqrt(least)
	}
	return math.Sqrt(least)
}

// squareDistance is the square of the distance of p from the edge ab.
func squareDistance(p, a, b Pixel) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	x, y := p.X-a.X, p.Y-a.Y
	if l := float64(dx*dx) + float64(dy*dy); l > 0 {
		t := max(0, min(1, (float64(x*dx)+float64(y*dy))/l))
		x, y = x-float64(t*dx), y-float64(t*dy)
	}
	return float64(x*x) + float64(y*y)
}

// square is a square that may hold the widest place; reach bounds how far
// from the outline a place in it can be.
type square struct {
	at          Pixel
	half, reach float64
}

type squares []square

func (s squares) Len() int           { return len(s) }
func (s squares) Less(i, j int) bool { return s[i].reach > s[j].reach }
func (s squares) Swap(i, j int)      { s[i], s[j] = s[j], s[i] }
func (s *squares) Push(v any)        { *s = append(*s, v.(square)) }
func (s *squares) Pop() any {
	last := (*s)[len(*s)-1]
	*s = (*s)[:len(*s)-1]
	return last
}
