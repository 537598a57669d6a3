package plane

import "math"

// Area returns the area of the path in square pixels, without its holes.
func (p *Path) Area() float64 {
	sum := 0.0
	for _, l := range p.Lines {
		sum += Turning(l.Points)
	}
	return math.Abs(sum) / 2
}

// Without returns the path without the lines that hold less than an area in
// square pixels.
func (p *Path) Without(area float64) *Path {
	var out Path
	for _, l := range p.Lines {
		if math.Abs(Turning(l.Points)) >= 2*area {
			out.Lines = append(out.Lines, l)
		}
	}
	return &out
}

// Largest returns the bounds of the largest closed line of a path, zero when
// there is none.
func (p *Path) Largest() Rect {
	var best Path
	most := -1.0
	for _, l := range p.Lines {
		if area := math.Abs(Turning(l.Points)); area > most {
			most, best.Lines = area, []Line{l}
		}
	}
	return best.Bounds()
}

// Thinned returns the outlines of the path with fewer points, for strokes:
// none is nearer than 0.8 pixels to the one before.
func (p *Path) Thinned() *Path {
	const least = 0.8
	var out Path
	for _, l := range p.Lines {
		kept := l.Points[:1:1]
		for _, q := range l.Points[1:] {
			if last := kept[len(kept)-1]; Distance(q, last) >= least {
				kept = append(kept, q)
			}
		}
		out.AddRing(kept...)
	}
	return &out
}
