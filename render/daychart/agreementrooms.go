package daychart

import (
	"math"

	"weekband/render/lettering"
	"weekband/render/plane"
	"weekband/render/press"
)

// around returns the cheapest place of a name around a dot and its cost,
// infinite when there is none.
func (n *namer) around(k mark, s lettering.Setting) (best lettering.Label, least float64) {
	const directions, steps = 24, 9
	least = math.Inf(1)
	edge := k.box().Width() / 2
	for step := range steps {
		far := edge + float64(n.unit*(0.3+float64(0.7*float64(step))))
		for d := range directions {
			sin, cos := plane.SinCos(2 * math.Pi * float64(d) / directions)
			square := max(math.Abs(sin), math.Abs(cos)) // the name touches the circle of radius far from outside
			l := s.At(plane.Pixel{X: k.at.X + float64(cos*(far+s.Width/2/square)), Y: k.at.Y + float64(sin*(far+s.Height/2/square))}, press.PlaceLabel, lettering.PlaceStyle(n.unit))
			if !n.Free(l.Box.Grow(0.2 * n.unit)) {
				continue
			}
			l.Leader = n.leaderTo(k, l.Box)
			inward := max(0, (sin+cos)*math.Copysign(1, k.departure())) // towards the line of the same day
			cost := far + n.ruffle(l.Box) + n.tangle(l, inward) + float64(0.4*n.unit*inward)
			if l.Leader == nil {
				cost += float64(0.7 * n.unit * float64(n.strangers(k, l.Box.Grow(0.7*n.unit))))
			}
			if cost < least && n.Clear(l) {
				best, least = l, cost
			}
		}
	}
	return best, least
}

// leaderTo returns the line from a dot to a name, nil when the name lies so
// close to its dot, and so far from others, that it needs none.
func (n *namer) leaderTo(k mark, box plane.Rect) *plane.Path {
	end := nearest(box.Grow(0.2*n.unit), k.at)
	far, edge := math.Hypot(end.X-k.at.X, end.Y-k.at.Y), k.box().Width()/2
	gap := far - edge
	if gap < 0.3*n.unit || gap < 0.55*n.unit && n.strangers(k, box.Grow(gap+float64(0.7*n.unit))) == 0 {
		return nil
	}
	var p plane.Path
	p.Add(plane.Pixel{X: k.at.X + float64(edge/far*(end.X-k.at.X)), Y: k.at.Y + float64(edge/far*(end.Y-k.at.Y))}, end)
	return &p
}

// strangers counts the dots in a box that stand elsewhere than k.
func (n *namer) strangers(k mark, box plane.Rect) int {
	count := 0
	for _, o := range n.marks {
		if o.at != k.at && box.Overlaps(o.box()) {
			count++
		}
	}
	return count
}

// ruffle is what the whiskers under a box cost.
func (n *namer) ruffle(box plane.Rect) float64 {
	cost := 0.0
	for _, k := range n.marks {
		if plane.CrossesBox(k.low, k.high, box.Grow(1)) {
			cost += float64(1.3 * n.unit)
		}
	}
	return cost
}

// tangle is what a leader costs beyond its length, for the whiskers it
// crosses; everything when it leads inward, or is so steep that it could be a
// whisker itself.
func (n *namer) tangle(l lettering.Label, inward float64) float64 {
	if l.Leader == nil {
		return 0
	}
	a, b := l.Leader.Lines[0].Points[0], l.Leader.Lines[0].Points[1]
	if dx, dy := math.Abs(a.X-b.X), math.Abs(a.Y-b.Y); dx < 0.4*dy || inward > 0.5 {
		return math.Inf(1)
	}
	cost := 0.0
	for _, k := range n.marks {
		if plane.Cross(a, b, k.low, k.high) {
			cost += float64(0.7 * n.unit)
		}
	}
	return cost
}

// nearest returns the place of a box that is nearest to p.
func nearest(box plane.Rect, p plane.Pixel) plane.Pixel {
	return plane.Pixel{X: max(box.Left, min(box.Right, p.X)), Y: max(box.Top, min(box.Bottom, p.Y))}
}
