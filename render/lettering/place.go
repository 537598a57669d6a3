package lettering

import (
	"cmp"
	"slices"

	"weekband/render/canvas"
	"weekband/render/plane"
	"weekband/render/press"
)

// Spot is a place on the page, to be named.
type Spot struct {
	Name string
	Rank int // 1 for the first to be named
	At   plane.Pixel
}

// Choose returns the spots in the frame by rank, at most as many as read well
// on its area; the others are dropped.
func (p *Placer) Choose(spots []Spot) []Spot {
	slices.SortStableFunc(spots, func(a, b Spot) int { return cmp.Compare(a.Rank, b.Rank) })
	room := p.unit * 11 // the side of the square a place needs, in pixels
	most := int(p.frame.Width()*p.frame.Height()/(room*room)) + 1
	var out []Spot
	for _, s := range spots {
		if len(out) < most && p.frame.Grow(-p.unit*0.5).Contains(s.At) {
			out = append(out, s)
		} else {
			p.Dropped = append(p.Dropped, s.Name)
		}
	}
	return out
}

// dot returns the box a place's mark takes up.
func (p *Placer) dot(at plane.Pixel) plane.Rect {
	return plane.Rect{Left: at.X, Right: at.X, Top: at.Y, Bottom: at.Y}.Grow(p.unit * 0.24)
}

// sides are the places of a name around its dot, the best first: to the right
// and a little up, then around. X and Y are −1, 0 or 1.
var sides = [...]struct{ x, y float64 }{{1, 0}, {1, -0.8}, {1, 0.8}, {-1, 0}, {-1, -0.8}, {-1, 0.8}, {0, -1}, {0, 1}}

// Places names the spots; a place whose name finds no room is left out with
// its dot. Names on the map's firm ground win over names across its coast.
func (p *Placer) Places(spots []Spot) {
	font := canvas.Font{Face: canvas.Italic, Size: max(p.unit*0.9, press.MinText)}
	for _, s := range spots {
		if !p.name(s, NewSetting([]string{s.Name}, font)) {
			p.Dropped = append(p.Dropped, s.Name)
		}
	}
}

func (p *Placer) name(s Spot, set Setting) bool {
	mark := p.dot(s.At)
	reserved := slices.Index(p.taken, mark)
	if reserved < 0 && !p.Free(mark.Grow(1)) {
		return false
	}
	if reserved >= 0 { // its own mark is not in its way
		p.taken = slices.Delete(p.taken, reserved, reserved+1)
	}
	gap := float64(p.unit * 0.45)
	for _, side := range sides {
		c := plane.Pixel{
			X: s.At.X + float64(side.x*(set.Width/2+gap)),
			Y: s.At.Y + float64(side.y*(set.Height/2+float64(gap*0.7))),
		}
		l := set.At(c, press.PlaceLabel, PlaceStyle(p.unit))
		if !p.Free(l.Box.Grow(p.unit * 0.3)) {
			continue
		}
		l.Dot = &plane.Path{}
		l.Dot.AddRing(plane.Polygon(s.At, p.unit*0.2, 20)...)
		p.Take(l)
		p.taken = append(p.taken, mark)
		return true
	}
	return false
}
