package render

import (
	"math"

	"weekband/render/carto"
)

// around returns the cheapest place of a name around a dot and its cost,
// infinite when there is none.
func (n *namer) around(k mark, s setting) (best label, least float64) {
	const directions, steps = 24, 9
	least = math.Inf(1)
	edge := k.box().Width() / 2
	for step := range steps {
		far := edge + float64(n.unit*(0.3+float64(0.7*float64(step))))
		for d := range directions {
			sin, cos := sincos(2 * math.Pi * float64(d) / directions)
			square := max(math.Abs(sin), math.Abs(cos)) // the name touches the circle of radius far from outside
			l := s.at(carto.Pixel{X: k.at.X + float64(cos*(far+s.width/2/square)), Y: k.at.Y + float64(sin*(far+s.height/2/square))}, PlaceLabel, placeStyle(n.unit))
			if !n.free(l.box.Grow(0.2 * n.unit)) {
				continue
			}
			l.leader = n.leaderTo(k, l.box)
			inward := max(0, (sin+cos)*math.Copysign(1, k.departure())) // towards the line of the same day
			cost := far + n.ruffle(l.box) + n.tangle(l, inward) + float64(0.4*n.unit*inward)
			if l.leader == nil {
				cost += float64(0.7 * n.unit * float64(n.strangers(k, l.box.Grow(0.7*n.unit))))
			}
			if cost < least && n.clear(l) {
				best, least = l, cost
			}
		}
	}
	return best, least
}

// leaderTo returns the line from a dot to a name, nil when the name lies so
// close to its dot, and so far from others, that it needs none.
func (n *namer) leaderTo(k mark, box Rect) *Path {
	end := nearest(box.Grow(0.2*n.unit), k.at)
	far, edge := math.Hypot(end.X-k.at.X, end.Y-k.at.Y), k.box().Width()/2
	gap := far - edge
	if gap < 0.3*n.unit || gap < 0.55*n.unit && n.strangers(k, box.Grow(gap+float64(0.7*n.unit))) == 0 {
		return nil
	}
	var p Path
	p.Add(carto.Pixel{X: k.at.X + float64(edge/far*(end.X-k.at.X)), Y: k.at.Y + float64(edge/far*(end.Y-k.at.Y))}, end)
	return &p
}

// strangers counts the dots in a box that stand elsewhere than k.
func (n *namer) strangers(k mark, box Rect) int {
	count := 0
	for _, o := range n.marks {
		if o.at != k.at && box.Overlaps(o.box()) {
			count++
		}
	}
	return count
}

// ruffle is what the whiskers under a box cost.
func (n *namer) ruffle(box Rect) float64 {
	cost := 0.0
	for _, k := range n.marks {
		if crosses(k.low, k.high, box.Grow(1)) {
			cost += float64(1.3 * n.unit)
		}
	}
	return cost
}

// tangle is what a leader costs beyond its length, for the whiskers it
// crosses; everything when it leads inward, or is so steep that it could be a
// whisker itself.
func (n *namer) tangle(l label, inward float64) float64 {
	if l.leader == nil {
		return 0
	}
	a, b := l.leader.lines[0].points[0], l.leader.lines[0].points[1]
	if dx, dy := math.Abs(a.X-b.X), math.Abs(a.Y-b.Y); dx < 0.4*dy || inward > 0.5 {
		return math.Inf(1)
	}
	cost := 0.0
	for _, k := range n.marks {
		if meet(a, b, k.low, k.high) {
			cost += float64(0.7 * n.unit)
		}
	}
	return cost
}

// nearest returns the place of a box that is nearest to p.
func nearest(box Rect, p carto.Pixel) carto.Pixel {
	return carto.Pixel{X: max(box.Left, min(box.Right, p.X)), Y: max(box.Top, min(box.Bottom, p.Y))}
}
