package render

import (
	"cmp"
	"slices"

	"weekband/render/carto"
)

// realm is a region to be named.
type realm struct {
	name   string
	ground cover
	target carto.Pixel // its widest place
	area   float64     // square pixels
}

// settings returns the ways to set a region's name, the best first: on one
// line, on two, and both smaller.
func (p *placer) settings(name string) []setting {
	var out []setting
	for _, size := range [...]float64{p.unit * 1.05, max(p.unit*0.86, minText)} {
		font := Font{Face: Regular, Size: size}
		out = append(out, newSetting([]string{name}, font))
		if two := halves(name, font); two != nil {
			out = append(out, newSetting(two, font))
		}
	}
	return out
}

// regions places the names of regions: inside where they fit, larger regions
// first; then the others beside their regions, in the order, of a few, that
// leaves out the fewest and has the shortest leaders.
func (p *placer) regions(names []string, shapes []*Path, spots []spot) {
	for _, s := range spots {
		if s.rank <= 1 {
			p.taken = append(p.taken, p.dot(s.at))
		}
	}
	var realms []realm
	for i, name := range names {
		if name == "" {
			continue
		}
		outline := shapes[i].thinned()
		if target, _, ok := widest(outline); ok {
			realms = append(realms, realm{name: name, ground: newCover(outline, 2), target: target, area: outline.area()})
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
			if cmp.Or(cmp.Compare(len(try.dropped), len(best.dropped)), cmp.Compare(try.cost, best.cost)) < 0 {
				best = try
			}
			if len(try.dropped) == 0 {
				break
			}
			order = promoted(order, try.dropped)
		}
	}
	*p = *best
}

// within places a name inside its region, near the widest place. A name that
// does not quite fit may reach over the border a little.
func (p *placer) within(r realm) bool {
	pad := float64(p.unit * 0.35)
	for _, s := range p.settings(r.name) {
		for _, c := range r.ground.rooms(s.width+float64(2*pad), s.height+pad, r.target) {
			if l := s.at(c, RegionLabel, regionStyle(p.unit)); p.free(l.box.Grow(pad)) {
				p.take(l)
				return true
			}
		}
	}
	return p.across(r, 0.7, 0.3)
}

// across places a name on the middle of its region when at least a part own
// of it lies on its ground and at most a part foreign on other land.
func (p *placer) across(r realm, own, foreign float64) bool {
	for _, s := range slices.Backward(p.settings(r.name)) {
		l := s.at(r.target, RegionLabel, regionStyle(p.unit))
		on := r.ground.share(l.box)
		if on >= own && p.land.share(l.box)-on <= foreign && p.free(l.box.Grow(p.unit*0.2)) {
			p.take(l)
			return true
		}
	}
	return false
}

// onGround returns one of the settings on its ground, near a place, or at worst
// a little over its borders; ok is false where none has room.
func (p *placer) onGround(sets []setting, ground cover, target carto.Pixel) (l label, ok bool) {
	const pad = 2
	for _, far := range [...]float64{7, pad} { // from the borders
		for _, s := range sets {
			for _, c := range ground.rooms(s.width+float64(2*far), s.height+float64(1.5*far), target) {
				if l := s.at(c, RegionLabel, textStyle{}); p.free(l.box.Grow(pad)) {
					return l, true
				}
			}
		}
	}
	for _, s := range slices.Backward(sets) {
		if l := s.at(target, RegionLabel, textStyle{}); ground.share(l.box) >= 0.75 && p.free(l.box.Grow(pad)) {
			return l, true
		}
	}
	return label{}, false
}
