package ground

// place is somewhere on the plane: what surrounds it.
type place struct {
	drawing *drawing
	odd     map[int32]bool // rings that surround it an odd number of times
	holed   map[int]bool   // polygons that have it in a hole
}

func newPlace(d *drawing) *place {
	return &place{drawing: d, odd: map[int32]bool{}, holed: map[int]bool{}}
}

// clear goes to where nothing surrounds it.
func (p *place) clear() { clear(p.odd) }

// pass goes across a segment of rings.
func (p *place) pass(rings []int32) {
	for _, r := range rings {
		if p.odd[r] {
			delete(p.odd, r)
		} else {
			p.odd[r] = true
		}
	}
}

// settle finds out in which polygons' holes it lies.
func (p *place) settle() {
	clear(p.holed)
	for number := range p.odd {
		if r := p.drawing.rings[number]; r.hole > 0 {
			p.holed[r.polygon] = true
		}
	}
}

// isGround reports whether some polygon has the place and none of its holes.
func (p *place) isGround() bool {
	p.settle()
	for number := range p.odd {
		if r := p.drawing.rings[number]; r.hole == 0 && !p.holed[r.polygon] {
			return true
		}
	}
	return false
}
