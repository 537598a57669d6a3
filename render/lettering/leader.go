package lettering

import (
	"math"
	"slices"

	"weekband/render/plane"
	"weekband/render/press"
)

// attempt places names that do not fit inside, in the order given, on a copy.
func (p *Placer) attempt(outside []realm) *Placer {
	c := *p
	c.taken, c.leaders = slices.Clip(p.taken), slices.Clip(p.leaders)
	c.Labels, c.Dropped = slices.Clip(p.Labels), slices.Clip(p.Dropped)
	for _, r := range outside {
		if !c.beside(r) && !c.across(r, 0.3, 0.12) {
			c.Dropped = append(c.Dropped, r.name)
		}
	}
	return &c
}

// promoted returns the order with the dropped names first.
func promoted(order []realm, dropped []string) []realm {
	out := slices.Clone(order)
	slices.SortStableFunc(out, func(a, b realm) int {
		switch x, y := slices.Contains(dropped, a.name), slices.Contains(dropped, b.name); {
		case x == y:
			return 0
		case x:
			return -1
		}
		return 1
	})
	return out
}

// beside places a name on open ground near its region, tied to it by a line
// unless it stands right beside it.
func (p *Placer) beside(r realm) bool {
	if !p.frame.Contains(r.target) {
		return false
	}
	best, least := Label{}, math.Inf(1)
	settings := p.settings(r.name)
	for _, s := range settings[len(settings)/2:] { // the small ones
		for far := p.unit * 0.6; far < p.unit*reach && far < least; far += float64(p.unit * 0.4) {
			for k := range directions {
				sin, cos := plane.SinCos(2 * math.Pi * float64(k) / directions)
				end := plane.Pixel{X: r.target.X + float64(far*cos), Y: r.target.Y + float64(far*sin)}
				l := s.At(plane.Pixel{X: end.X + float64(cos*(s.Width/2+float64(p.unit*0.3))), Y: end.Y + float64(sin*(s.Height/2+float64(p.unit*0.2)))}, press.RegionLabel, regionStyle(p.unit))
				if !p.Free(l.Box.Grow(p.unit*0.2)) || p.land.Share(l.Box.Grow(2)) > 0.01 {
					continue
				}
				// Rounded: in many a direction it is the same but for its last bits, and the first is taken.
				cost := math.Round((p.tie(r, &l, end)+float64(0.4*p.unit*float64(len(s.Lines)-1)))*1024) / 1024
				if cost < least && p.Clear(l) {
					best, least = l, cost
				}
			}
		}
	}
	if math.IsInf(least, 1) {
		return false
	}
	p.cost += least
	p.Take(best)
	return true
}

// leadersMost is how many names may want a place beside their regions before
// a map counts as one of many small regions, where leaders would be a thicket.
const leadersMost = 24

// giveUp leaves out the names that do not fit inside; when they are the most,
// all names, since those of a chance few would say nothing.
func (p *Placer) giveUp(realms, outside []realm) {
	left := outside
	if 2*len(outside) > len(realms) {
		left = realms
		p.taken, p.Labels = p.taken[:p.before], nil
	}
	for _, r := range left {
		p.Dropped = append(p.Dropped, r.name)
	}
}

// Where names beside their regions are looked for: in so many directions, up
// to reach units away, over at most foreignMost units of other regions.
const (
	directions  = 48
	reach       = 11
	foreignMost = 2.5
)

// tie gives a label its leader to end and returns what it costs: its length,
// that over other regions counted three times, infinite when that is too
// long. A label right beside its region needs no leader.
func (p *Placer) tie(r realm, l *Label, end plane.Pixel) float64 {
	const step = 2
	far := math.Hypot(end.X-r.target.X, end.Y-r.target.Y)
	dx, dy := (end.X-r.target.X)/far, (end.Y-r.target.Y)/far
	foreign, open := 0.0, 0.0
	for d := 0.0; d < far; d += step {
		at := plane.Pixel{X: r.target.X + float64(d*dx), Y: r.target.Y + float64(d*dy)}
		switch {
		case r.ground.Holds(at):
		case p.land.Holds(at):
			foreign += step
		default:
			open += step
		}
	}
	if foreign > foreignMost*p.unit {
		return math.Inf(1)
	}
	if foreign > 0 || open > 0.9*p.unit {
		l.Leader = &plane.Path{}
		l.Leader.Add(r.target, end)
	}
	return far + float64(2*foreign)
}

// Clear reports whether a label's leader touches no name and no other leader.
func (p *Placer) Clear(l Label) bool {
	if l.Leader == nil {
		return true
	}
	a, b := l.Leader.Lines[0].Points[0], l.Leader.Lines[0].Points[1]
	for _, t := range p.taken {
		if plane.CrossesBox(a, b, t.Grow(2)) {
			return false
		}
	}
	for _, o := range p.leaders {
		if plane.Cross(a, b, o[0], o[1]) {
			return false
		}
	}
	return true
}
