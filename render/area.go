package render

import "math"

// area returns the area of the path in square pixels.
func (p *Path) area() float64 {
	sum := 0.0
	for _, l := range p.lines {
		sum += turning(l.points)
	}
	return math.Abs(sum) / 2
}

// without returns a path without closed lines under an area in square pixels.
func (p *Path) without(area float64) *Path {
	var out Path
	for _, l := range p.lines {
		if math.Abs(turning(l.points)) >= 2*area {
			out.lines = append(out.lines, l)
		}
	}
	return &out
}

// largest returns the bounds of the largest closed line of a path, zero when
// there is none.
func (p *Path) largest() Rect {
	var best Path
	most := -1.0
	for _, l := range p.lines {
		if area := math.Abs(turning(l.points)); area > most {
			most, best.lines = area, []line{l}
		}
	}
	return best.Bounds()
}

// thinned returns the outlines of the path with fewer points, for strokes.
func (p *Path) thinned() *Path {
	const least = 0.8
	var out Path
	for _, l := range p.lines {
		kept := l.points[:1:1]
		for _, q := range l.points[1:] {
			if last := kept[len(kept)-1]; distance(q, last) >= least {
				kept = append(kept, q)
			}
		}
		out.AddRing(kept...)
	}
	return &out
}
