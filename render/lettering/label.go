package lettering

import (
	"slices"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
)

// Label is a placed name: its lines of text and what belongs to it.
type Label struct {
	Kind   press.Kind
	Lines  []canvas.Text
	Box    plane.Rect
	Leader *plane.Path // from the region to its name, nil for none
	Dot    *plane.Path // the mark of a place, nil for regions
}

// Placer puts names on a map, the important ones first, so that none covers
// another.
type Placer struct {
	frame   plane.Rect
	unit    float64
	land    plane.Cover
	taken   []plane.Rect
	leaders [][2]plane.Pixel
	Labels  []Label
	Dropped []string
	cost    float64 // of the leaders
	before  int     // how many boxes were taken before the names of regions
}

// NewPlacer returns a placer for names in a frame, at a unit of that many
// pixels, over the land that is covered; the zero cover is no land.
func NewPlacer(frame plane.Rect, unit float64, land plane.Cover) *Placer {
	return &Placer{frame: frame, unit: unit, land: land}
}

// Keep keeps a box free of names.
func (p *Placer) Keep(box plane.Rect) { p.taken = append(p.taken, box) }

// KeepLine keeps names off the straight line between two places.
func (p *Placer) KeepLine(a, b plane.Pixel) { p.leaders = append(p.leaders, [2]plane.Pixel{a, b}) }

// Without runs do as if no box had its middle at a place.
func (p *Placer) Without(middle plane.Pixel, do func()) {
	all := p.taken
	p.taken = slices.DeleteFunc(slices.Clone(all), func(r plane.Rect) bool { return r.Center() == middle })
	do()
	p.taken = all
}

// OverLand returns the part of a box that lies on land, 0 to 1.
func (p *Placer) OverLand(box plane.Rect) float64 { return p.land.Share(box) }

// Free reports whether a box lies in the frame and on nothing else.
func (p *Placer) Free(box plane.Rect) bool {
	if !box.Within(p.frame.Grow(-2)) {
		return false
	}
	for _, t := range p.taken {
		if t.Overlaps(box) {
			return false
		}
	}
	for _, l := range p.leaders {
		if plane.CrossesBox(l[0], l[1], box) {
			return false
		}
	}
	return true
}

// Take keeps a label and its leader.
func (p *Placer) Take(l Label) {
	if l.Leader != nil {
		p.leaders = append(p.leaders, [2]plane.Pixel(l.Leader.Lines[0].Points))
	}
	p.Labels = append(p.Labels, l)
	p.taken = append(p.taken, l.Box)
}
