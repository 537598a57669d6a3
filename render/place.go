package render

import (
	"cmp"
	"slices"

	"weekband/render/carto"
)

// spot is a place on the page, to be named.
type spot struct {
	name string
	rank int // 1 for the first to be named
	at   carto.Pixel
}

// choose returns the spots in the frame by rank, at most as many as read well
// on its area; the others are dropped.
func (p *placer) choose(spots []spot) []spot {
	slices.SortStableFunc(spots, func(a, b spot) int { return cmp.Compare(a.rank, b.rank) })
	room := p.unit * 11 // the side of the square a place needs, in pixels
	most := int(p.frame.Width()*p.frame.Height()/(room*room)) + 1
	var out []spot
	for _, s := range spots {
		if len(out) < most && p.frame.Grow(-p.unit*0.5).Contains(s.at) {
			out = append(out, s)
		} else {
			p.dropped = append(p.dropped, s.name)
		}
	}
	return out
}

// dot returns the box a place's mark takes up.
func (p *placer) dot(at carto.Pixel) Rect {
	return Rect{Left: at.X, Right: at.X, Top: at.Y, Bottom: at.Y}.Grow(p.unit * 0.24)
}

// sides are the places of a name around its dot, the best first: to the right
// and a little up, then around. X and Y are −1, 0 or 1.
var sides = [...]struct{ x, y float64 }{{1, 0}, {1, -0.8}, {1, 0.8}, {-1, 0}, {-1, -0.8}, {-1, 0.8}, {0, -1}, {0, 1}}

// places names the spots; a place whose name finds no room is left out with
// its dot. Names on the map's firm ground win over names across its coast.
func (p *placer) places(spots []spot) {
	font := Font{Face: Italic, Size: max(p.unit*0.9, minText)}
	for _, s := range spots {
		if !p.name(s, newSetting([]string{s.name}, font)) {
			p.dropped = append(p.dropped, s.name)
		}
	}
}

func (p *placer) name(s spot, set setting) bool {
	mark := p.dot(s.at)
	reserved := slices.Index(p.taken, mark)
	if reserved < 0 && !p.free(mark.Grow(1)) {
		return false
	}
	if reserved >= 0 { // its own mark is not in its way
		p.taken = slices.Delete(p.taken, reserved, reserved+1)
	}
	gap := float64(p.unit * 0.45)
	for _, side := range sides {
		c := carto.Pixel{
			X: s.at.X + float64(side.x*(set.width/2+gap)),
			Y: s.at.Y + float64(side.y*(set.height/2+float64(gap*0.7))),
		}
		l := set.at(c, PlaceLabel, placeStyle(p.unit))
		if !p.free(l.box.Grow(p.unit * 0.3)) {
			continue
		}
		l.dot = &Path{}
		l.dot.AddRing(circle(s.at, p.unit*0.2, 20)...)
		p.take(l)
		p.taken = append(p.taken, mark)
		return true
	}
	return false
}
