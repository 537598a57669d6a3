package main

import "math"

// oval is an ellipse on the drawing board: centre, half axes in plan degrees,
// and the turn of its first axis from east towards north, in degrees.
type oval struct{ x, y, rx, ry, turn float64 }

// inside is about the distance to the outline in plan degrees, positive
// within.
func (o oval) inside(p plan) float64 {
	s, c := math.Sincos(o.turn * math.Pi / 180)
	dx, dy := p.x-o.x, p.y-o.y
	r := hypot((c*dx+s*dy)/o.rx, (c*dy-s*dx)/o.ry)
	return (1 - r) * min(o.rx, o.ry)
}

// The drawing: a mainland with a broad bay in the west where the great river
// meets the sea, a long low south, and islands on three sides.
var (
	mainland = []oval{
		{5.2, 5.3, 3.0, 2.2, 0}, {4.2, 7.5, 2.7, 1.35, 12}, {7.4, 6.9, 2.1, 1.8, 0},
		{6.3, 3.0, 1.9, 1.7, -15}, {6.9, 1.55, 1.25, 1.0, -20}, {2.3, 6.5, 1.4, 0.8, 10},
		{2.9, 3.5, 1.5, 0.85, -20}, {8.5, 5.0, 1.0, 1.1, 0},
	}
	bays = []oval{
		{1.0, 4.9, 1.15, 0.40, 6}, {8.9, 3.5, 1.1, 0.5, 35}, {4.2, 1.7, 0.8, 0.55, 30}, {5.9, 9.0, 0.5, 0.55, 0},
	}
	islands = []oval{
		{0.85, 7.9, 0.46, 0.36, 60}, {1.35, 2.05, 0.62, 0.34, -35}, {0.70, 2.95, 0.30, 0.24, 20}, {0.62, 1.45, 0.22, 0.16, 0},
		{2.35, 1.45, 0.40, 0.28, 30}, {3.5, 0.95, 0.46, 0.30, 20}, {9.55, 2.6, 0.42, 0.62, -20}, {1.75, 1.0, 0.2, 0.16, 0},
		{9.1, 1.5, 0.30, 0.26, 0}, {1.75, 8.9, 0.36, 0.24, 0}, {9.45, 8.55, 0.44, 0.32, 40}, {0.75, 6.9, 0.2, 0.16, 0},
	}
)

// line is a crest drawn as a chain of points with the half width of the
// upland along it, in plan degrees.
type line struct {
	points []plan
	wide   float64
}

// near is 1 on the crest and falls off like a bell.
func (l line) near(p plan) float64 {
	best := math.Inf(1)
	for i := 1; i < len(l.points); i++ {
		best = min(best, toSegment(p, l.points[i-1], l.points[i]))
	}
	d := best / l.wide
	return math.Exp(-d * d)
}

func toSegment(p, a, b plan) float64 {
	dx, dy := b.x-a.x, b.y-a.y
	t := between(((p.x-a.x)*dx+(p.y-a.y)*dy)/(dx*dx+dy*dy), 0, 1)
	return hypot(p.x-a.x-t*dx, p.y-a.y-t*dy)
}

var (
	spine = line{wide: 0.56, points: []plan{{1.9, 7.6}, {3.4, 7.7}, {5.2, 7.3}, {6.6, 6.6}, {7.5, 5.6}, {7.6, 4.6}}}
	downs = line{wide: 0.42, points: []plan{{2.4, 3.7}, {3.8, 3.5}, {5.2, 3.1}, {6.5, 3.0}}}
	// The great valley lies between spine and downs; nothing rises there.
	valley = line{wide: 0.42, points: []plan{{2.4, 5.0}, {3.4, 5.0}, {4.6, 5.3}, {5.9, 5.5}, {6.3, 4.7}}}
	// plateau is old, hard land behind the spine.
	plateau = oval{7.15, 7.3, 1.3, 0.7, -18}
)
