package plane

import (
	"cmp"
	"math"
	"slices"
)

// Cover knows which ground a shape covers, along horizontal lines a few
// pixels apart. The zero value covers nothing.
type Cover struct {
	step float64
	rows []row
}

// NewCover scans a shape every step pixels, more than 0.
func NewCover(shape *Path, step float64) Cover {
	return Cover{step: step, rows: scanlines(shape, step, func(p Pixel) Pixel { return p })}
}

// between returns the rows whose lines lie in [top, bottom].
func (c Cover) between(top, bottom float64) []row {
	if len(c.rows) == 0 {
		return nil
	}
	first := c.rows[0].index
	from := int(math.Ceil(top/c.step-0.5)) - first
	to := int(math.Floor(bottom/c.step-0.5)) - first + 1
	from, to = max(from, 0), min(to, len(c.rows))
	if from >= to {
		return nil
	}
	return c.rows[from:to]
}

// Share returns the part of a box that is covered, 0 to 1.
func (c Cover) Share(box Rect) float64 {
	sum := 0.0
	for _, r := range c.between(box.Top, box.Bottom) {
		for _, s := range r.spans {
			sum += max(0, min(s.to, box.Right)-max(s.from, box.Left))
		}
	}
	return sum * c.step / (box.Width() * box.Height())
}

// Holds reports whether the ground at a place is covered, to half a step.
func (c Cover) Holds(p Pixel) bool {
	for _, r := range c.between(p.Y-c.step/2, p.Y+c.step/2) {
		for _, s := range r.spans {
			if s.from <= p.X && p.X <= s.to {
				return true
			}
		}
	}
	return false
}

// Rooms returns the places nearest to target, nearest first, where a box of
// the given size and centre lies wholly on covered ground.
func (c Cover) Rooms(width, height float64, target Pixel) []Pixel {
	var found []Pixel
	var shared, next []span
	for i := range c.rows {
		y := (float64(c.rows[i].index) + 0.5) * c.step
		rows := c.between(y-height/2, y+height/2)
		if float64(len(rows))*c.step < height-float64(2*c.step) {
			continue
		}
		shared, next = common(rows, shared, next)
		for _, s := range shared {
			if s.to-s.from >= width {
				x := max(s.from+width/2, min(s.to-width/2, target.X))
				found = append(found, Pixel{X: x, Y: y})
			}
		}
	}
	far := func(p Pixel) float64 { return math.Hypot((p.X-target.X)*0.5, p.Y-target.Y) }
	slices.SortStableFunc(found, func(a, b Pixel) int { return cmp.Compare(far(a), far(b)) })
	return found
}

// common returns the stretches that every row covers, in one of two lists that
// may be written over, and the other.
func common(rows []row, shared, next []span) (stretches, other []span) {
	shared = shared[:0]
	if len(rows) == 0 {
		return shared, next
	}
	shared = append(shared, rows[0].spans...)
	for _, r := range rows[1:] {
		next = next[:0]
		for _, a := range shared {
			for _, b := range r.spans {
				if s := (span{from: max(a.from, b.from), to: min(a.to, b.to)}); s.from < s.to {
					next = append(next, s)
				}
			}
		}
		shared, next = next, shared
	}
	return shared, next
}
