package lettering

import (
	"cmp"
	"slices"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
)

// realm is a region to be named.
type realm struct {
	name   string
	ground plane.Cover
	target plane.Pixel // its widest place
	area   float64     // square pixels
}

// settings returns the ways to set a region's name, the best first: on one
// line, on two, and both smaller.
func (p *Placer) settings(name string) []Setting {
	var out []Setting
	for _, size := range [...]float64{p.unit * 1.05, max(p.unit*0.86, press.MinText)} {
		font := canvas.Font{Face: canvas.Regular, Size: size}
		out = append(out, NewSetting([]string{name}, font))
		if two := Halves(name, font); two != nil {
			out = append(out, NewSetting(two, font))
		}
	}
	return out
}

// Regions places the names of regions: inside where they fit, larger regions
// first; then the others beside their regions, in the order, of a few, that
// leaves out the fewest and has the shortest leaders.
func (p *Placer) Regions(names []string, shapes []*plane.Path, spots []Spot) {
	for _, s := range spots {
		if s.Rank <= 1 {
			p.taken = append(p.taken, p.dot(s.At))
		}
	}
	var realms []realm
	for i, name := range names {
		if name == "" {
			continue
		}
		outline := shapes[i].Thinned()
		if target, _, ok := plane.Widest(outline); ok {
			realms = append(realms, realm{name: name, ground: plane.NewCover(outline, 2), target: target, area: outline.Area()})
		}
	}
	slices.SortStableFunc(realms, func(a, b realm) int { return cmp.Compare(b.area, a.area) })
	p.before = len(p.taken)
	var outside []realm
	for _, r := range realms {
		if !p.within(r) {
			outside = append(outside, r)
		}
	}
	if len(outside) > leadersMost {
		p.giveUp(realms, outside)
		return
	}
	best := p.attempt(outside)
	upward := slices.Clone(outside)
	slices.Reverse(upward)
	for _, order := range [...][]realm{outside, upward} {
		for range 4 {
			try := p.attempt(order)
			if cmp.Or(cmp.Compare(len(try.Dropped), len(best.Dropped)), cmp.Compare(try.cost, best.cost)) < 0 {
				best = try
			}
			if len(try.Dropped) == 0 {
				break
			}
			order = promoted(order, try.Dropped)
		}
	}
	*p = *best
}

// within places a name inside its region, near the widest place. A name that
// does not quite fit may reach over the border a little.
func (p *Placer) within(r realm) bool {
	pad := float64(p.unit * 0.35)
	for _, s := range p.settings(r.name) {
		for _, c := range r.ground.Rooms(s.Width+float64(2*pad), s.Height+pad, r.target) {
			if l := s.At(c, press.RegionLabel, regionStyle(p.unit)); p.Free(l.Box.Grow(pad)) {
				p.Take(l)
				return true
			}
		}
	}
	return p.across(r, 0.7, 0.3)
}

// across places a name on the middle of its region when at least a part own
// of it lies on its ground and at most a part foreign on other land.
func (p *Placer) across(r realm, own, foreign float64) bool {
	for _, s := range slices.Backward(p.settings(r.name)) {
		l := s.At(r.target, press.RegionLabel, regionStyle(p.unit))
		on := r.ground.Share(l.Box)
		if on >= own && p.land.Share(l.Box)-on <= foreign && p.Free(l.Box.Grow(p.unit*0.2)) {
			p.Take(l)
			return true
		}
	}
	return false
}

// OnGround returns one of the settings on its ground, near a place, or at worst
// a little over its borders; ok is false where none has room.
func (p *Placer) OnGround(sets []Setting, ground plane.Cover, target plane.Pixel) (l Label, ok bool) {
	const pad = 2
	for _, far := range [...]float64{7, pad} { // from the borders
		for _, s := range sets {
			for _, c := range ground.Rooms(s.Width+float64(2*far), s.Height+float64(1.5*far), target) {
				if l := s.At(c, press.RegionLabel, Style{}); p.Free(l.Box.Grow(pad)) {
					return l, true
				}
			}
		}
	}
	for _, s := range slices.Backward(sets) {
		if l := s.At(target, press.RegionLabel, Style{}); ground.Share(l.Box) >= 0.75 && p.Free(l.Box.Grow(pad)) {
			return l, true
		}
	}
	return Label{}, false
}
