package render

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"weekband/render/carto"
)

// label is a placed name: its lines of text and what belongs to it.
type label struct {
	kind   Kind
	name   string
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

// take keeps a label.
func (p *placer) take(l label) {
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
	s.height = float64(len(lines)-1)*font.Line() + font.Size*0.95
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
	l := label{kind: kind, name: strings.Join(s.lines, " ")}
	l.box = Rect{Left: c.X - s.width/2, Right: c.X + s.width/2, Top: c.Y - s.height/2, Bottom: c.Y + s.height/2}
	for i, text := range s.lines {
		l.lines = append(l.lines, Text{
			At:     carto.Pixel{X: c.X, Y: l.box.Top + s.font.Size*0.78 + float64(i)*s.font.Line()},
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
		outline := thinned(shapes[i])
		if target, _, ok := widest(outline); ok {
			realms = append(realms, realm{name: name, ground: newCover(outline, 2), target: target, area: areaOf(outline)})
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

// attempt places names that do not fit inside, in the order given, on a copy.
func (p *placer) attempt(outside []realm) *placer {
	c := *p
	c.taken, c.leaders = slices.Clip(p.taken), slices.Clip(p.leaders)
	c.labels, c.dropped = slices.Clip(p.labels), slices.Clip(p.dropped)
	for _, r := range outside {
		if !c.beside(r) && !c.across(r, 0.3, 0.12) {
			c.dropped = append(c.dropped, r.name)
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

// areaOf returns the area of a path in square pixels.
func areaOf(p *Path) float64 {
	sum := 0.0
	for _, l := range p.lines {
		sum += turning(l.points)
	}
	return math.Abs(sum) / 2
}

// within places a name inside its region, near the widest place. A name that
// does not quite fit may reach over the border a little.
func (p *placer) within(r realm) bool {
	pad := p.unit * 0.35
	for _, s := range p.settings(r.name) {
		for _, c := range r.ground.rooms(s.width+2*pad, s.height+pad, r.target) {
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

// beside places a name on open ground near its region, tied to it by a line
// unless it stands right beside it.
func (p *placer) beside(r realm) bool {
	if !p.frame.Contains(r.target) {
		return false
	}
	best, least := label{}, math.Inf(1)
	settings := p.settings(r.name)
	for _, s := range settings[len(settings)/2:] { // the small ones
		for far := p.unit * 0.6; far < p.unit*reach && far < least; far += p.unit * 0.4 {
			for k := range directions {
				sin, cos := math.Sincos(2 * math.Pi * float64(k) / directions)
				end := carto.Pixel{X: r.target.X + far*cos, Y: r.target.Y + far*sin}
				l := s.at(carto.Pixel{X: end.X + cos*(s.width/2+p.unit*0.3), Y: end.Y + sin*(s.height/2+p.unit*0.2)}, RegionLabel, regionStyle(p.unit))
				if !p.free(l.box.Grow(p.unit*0.2)) || p.land.share(l.box.Grow(2)) > 0.01 {
					continue
				}
				if cost := p.tie(r, &l, end) + 0.4*p.unit*float64(len(s.lines)-1); cost < least && p.clear(l) {
					best, least = l, cost
				}
			}
		}
	}
	if math.IsInf(least, 1) {
		return false
	}
	if best.leader != nil {
		p.leaders = append(p.leaders, [2]carto.Pixel(best.leader.lines[0].points))
	}
	p.cost += least
	p.take(best)
	return true
}

// leadersMost is how many names may want a place beside their regions before
// a map counts as one of many small regions, where leaders would be a thicket.
const leadersMost = 24

// giveUp leaves out the names that do not fit inside; when they are the most,
// all names, since those of a chance few would say nothing.
func (p *placer) giveUp(realms, outside []realm) {
	left := outside
	if 2*len(outside) > len(realms) {
		left = realms
		p.taken, p.labels = p.taken[:p.before], nil
	}
	for _, r := range left {
		p.dropped = append(p.dropped, r.name)
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
func (p *placer) tie(r realm, l *label, end carto.Pixel) float64 {
	const step = 2
	far := math.Hypot(end.X-r.target.X, end.Y-r.target.Y)
	dx, dy := (end.X-r.target.X)/far, (end.Y-r.target.Y)/far
	foreign, open := 0.0, 0.0
	for d := 0.0; d < far; d += step {
		at := carto.Pixel{X: r.target.X + d*dx, Y: r.target.Y + d*dy}
		switch {
		case r.ground.holds(at):
		case p.land.holds(at):
			foreign += step
		default:
			open += step
		}
	}
	if foreign > foreignMost*p.unit {
		return math.Inf(1)
	}
	if foreign > 0 || open > 0.9*p.unit {
		l.leader = &Path{}
		l.leader.Add(r.target, end)
	}
	return far + 2*foreign
}

// clear reports whether a label's leader touches no name and no other leader.
func (p *placer) clear(l label) bool {
	if l.leader == nil {
		return true
	}
	a, b := l.leader.lines[0].points[0], l.leader.lines[0].points[1]
	for _, t := range p.taken {
		if crosses(a, b, t.Grow(2)) {
			return false
		}
	}
	for _, o := range p.leaders {
		if meet(a, b, o[0], o[1]) {
			return false
		}
	}
	return true
}

// crosses reports whether the line ab touches a box.
func crosses(a, b carto.Pixel, box Rect) bool {
	if box.Contains(a) || box.Contains(b) {
		return true
	}
	nw, se := carto.Pixel{X: box.Left, Y: box.Top}, carto.Pixel{X: box.Right, Y: box.Bottom}
	ne, sw := carto.Pixel{X: box.Right, Y: box.Top}, carto.Pixel{X: box.Left, Y: box.Bottom}
	return meet(a, b, nw, se) || meet(a, b, ne, sw)
}

// meet reports whether the lines ab and cd cross.
func meet(a, b, c, d carto.Pixel) bool {
	side := func(p, q, r carto.Pixel) bool { return (q.X-p.X)*(r.Y-p.Y)-(q.Y-p.Y)*(r.X-p.X) > 0 }
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}
