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

// regions places the names of regions, larger regions first.
func (p *placer) regions(names []string, shapes []*Path) {
	order := make([]int, len(names))
	size := make([]float64, len(names))
	for i, s := range shapes {
		order[i] = i
		size[i] = areaOf(s)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(size[b], size[a]) })
	var outside []int
	for _, i := range order {
		if names[i] == "" || shapes[i].Empty() {
			continue
		}
		if !p.within(names[i], shapes[i]) {
			outside = append(outside, i)
		}
	}
	for _, i := range outside {
		if !p.beside(names[i], shapes[i]) {
			p.dropped = append(p.dropped, names[i])
		}
	}
}

// areaOf returns the area of a path in square pixels.
func areaOf(p *Path) float64 {
	sum := 0.0
	for _, l := range p.lines {
		sum += turning(l.points)
	}
	return math.Abs(sum) / 2
}

// within places a name inside its region, near the widest place, or over its
// edge where that hides no other region.
func (p *placer) within(name string, shape *Path) bool {
	outline := thinned(shape)
	target, _, ok := widest(outline)
	if !ok {
		return false
	}
	ground := newCover(outline, 2)
	pad := p.unit * 0.35
	for _, s := range p.settings(name) {
		for _, c := range ground.rooms(s.width+2*pad, s.height+pad, target) {
			if l := s.at(c, RegionLabel, regionStyle(p.unit)); p.free(l.box.Grow(pad / 2)) {
				p.take(l)
				return true
			}
		}
	}
	for _, s := range p.settings(name) {
		l := s.at(target, RegionLabel, regionStyle(p.unit))
		own, all := ground.share(l.box), p.land.share(l.box)
		if own > 0.45 && all-own < 0.12 && p.free(l.box.Grow(pad/2)) {
			p.take(l)
			return true
		}
	}
	return false
}

// beside places a name on open ground near its region, tied to it by a line.
func (p *placer) beside(name string, shape *Path) bool {
	target, _, ok := widest(thinned(shape))
	if !ok || !p.frame.Contains(target) {
		return false
	}
	settings := p.settings(name)
	s := settings[len(settings)-1]
	if len(s.lines) > 1 {
		s = newSetting([]string{name}, s.font)
	}
	const directions = 32
	for far := p.unit; far < p.unit*16; far += p.unit * 0.6 {
		for k := range directions {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / directions)
			end := carto.Pixel{X: target.X + far*cos, Y: target.Y + far*sin}
			c := carto.Pixel{X: end.X + cos*(s.width/2+p.unit*0.3), Y: end.Y + sin*s.height*0.6}
			l := s.at(c, RegionLabel, regionStyle(p.unit))
			if p.land.share(l.box.Grow(2)) > 0.01 || !p.free(l.box.Grow(p.unit*0.25)) || !p.clear(target, end) {
				continue
			}
			l.leader = &Path{}
			l.leader.Add(target, end)
			p.leaders = append(p.leaders, [2]carto.Pixel{target, end})
			p.take(l)
			return true
		}
	}
	return false
}

// clear reports whether a leader would touch no name and no other leader.
func (p *placer) clear(a, b carto.Pixel) bool {
	for _, t := range p.taken {
		if crosses(a, b, t.Grow(2)) {
			return false
		}
	}
	for _, l := range p.leaders {
		if meet(a, b, l[0], l[1]) {
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
