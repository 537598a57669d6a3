package render

import (
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

// newPlacer returns a placer for names in a frame, at a unit of that many
// pixels, over the land that is covered; the zero cover is no land.
func newPlacer(frame Rect, unit float64, land cover) *placer {
	return &placer{frame: frame, unit: unit, land: land}
}

// keep keeps a box free of names.
func (p *placer) keep(box Rect) { p.taken = append(p.taken, box) }

// keepLine keeps names off the straight line between two places.
func (p *placer) keepLine(a, b carto.Pixel) { p.leaders = append(p.leaders, [2]carto.Pixel{a, b}) }

// without runs do as if no box had its middle at a place.
func (p *placer) without(middle carto.Pixel, do func()) {
	all := p.taken
	p.taken = slices.DeleteFunc(slices.Clone(all), func(r Rect) bool { return r.Center() == middle })
	do()
	p.taken = all
}

// overLand returns the part of a box that lies on land, 0 to 1.
func (p *placer) overLand(box Rect) float64 { return p.land.share(box) }

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
