package render

import (
	"cmp"
	"math"
	"slices"

	"weekband/render/carto"
)

// label is a placed name: its lines of text and what belongs to it.
type label struct {
	kind   Kind
	lines  []Text
	box    Rect
	leader *Path // from the region to its name, nil for none
	dot    *Path // the mark of a place, nil for regions
}

// placer puts names on a map, the important ones first, so that none covers
// another.
type placer struct {
	frame   Rect
	unit    float64
	land    cover
	taken   []Rect
	leaders [][2]carto.Pixel
	labels  []label
	dropped []string
	cost    float64 // of the leaders
	before  int     // how many boxes were taken before the names of regions
}

// free reports whether a box lies in the frame and on nothing else.
func (p *placer) free(box Rect) bool {
	if !box.Within(p.frame.Grow(-2)) {
		return false
	}
	for _, t := range p.taken {
		if t.Overlaps(box) {
			return false
		}
	}
	for _, l := range p.leaders {
		if crosses(l[0], l[1], box) {
			return false
		}
	}
	return true
}

// take keeps a label and its leader.
func (p *placer) take(l label) {
	if l.leader != nil {
		p.leaders = append(p.leaders, [2]carto.Pixel(l.leader.lines[0].points))
	}
	p.labels = append(p.labels, l)
	p.taken = append(p.taken, l.box)
}

// setting is a name set in lines at a size.
type setting struct {
	lines         []string
	font          Font
	width, height float64
}

// newSetting sets a name in lines.
func newSetting(lines []string, font Font) setting {
	s := setting{lines: lines, font: font}
	for _, l := range lines {
		s.width = max(s.width, font.Width(l))
	}
	s.height = float64(float64(len(lines)-1)*font.Line()) + float64(font.Size*0.95)
	return s
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

// halves splits a name at the space that leaves the shortest longer line, nil
// when it has none.
func halves(name string, font Font) []string {
	var best []string
	least := math.Inf(1)
	for i, r := range name {
		if r != ' ' {
			continue
		}
		if w := max(font.Width(name[:i]), font.Width(name[i+1:])); w < least {
			best, least = []string{name[:i], name[i+1:]}, w
		}
	}
	return best
}

// at returns the setting as a label with its middle at a place.
func (s setting) at(c carto.Pixel, kind Kind, color textStyle) label {
	l := label{kind: kind}
	l.box = Rect{Left: c.X - s.width/2, Right: c.X + s.width/2, Top: c.Y - s.height/2, Bottom: c.Y + s.height/2}
	for i, text := range s.lines {
		l.lines = append(l.lines, Text{
			At:     carto.Pixel{X: c.X, Y: l.box.Top + float64(s.font.Size*0.78) + float64(float64(i)*s.font.Line())},
			Anchor: Middle, String: text, Font: s.font, Color: color.ink, Halo: color.halo,
		})
	}
	return l
}

// realm is a region to be named.
type realm struct {
	name   string
	ground cover
	target carto.Pixel // its widest place
	area   float64     // square pixels
}

// regions places the names of regions: inside where they fit, larger regions
// first; then the others beside their regions, in the order, of a few, that
// leaves out the fewest and has the shortest leaders.
func (p *placer) regions(names []string, shapes []*Path) {
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
