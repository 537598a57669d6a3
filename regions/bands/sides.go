package bands

// sidesAlong handles the sides of cells that run along row r of corners,
// from west to east: what crosses them, and which are borders.
func (t *tracer) sidesAlong(r int) {
	n := t.cols
	above, below, band := t.above.dated[:n+2], t.below.dated[:n+2], t.lower.band[:n+1]
	northern, southern := t.above.label[:n+2], t.below.label[:n+2]
	for c := range n {
		north, south := c+1, c+1
		if plain(above[north], below[south], band[c], band[c+1], northern[north], southern[south]) {
			continue
		}
		s := side{
			left: t.above.label[north], right: t.below.label[south],
			leftDated: t.above.dated[north], rightDated: t.below.dated[south],
			bandFrom: t.lower.band[c], bandTo: t.lower.band[c+1],
		}
		if s.leftDated || s.rightDated {
			t.lower.side[c] = t.cross(corner(r, c), corner(r, c+1),
				t.lower.day[c], t.lower.day[c+1], s.bandFrom, s.bandTo)
		}
		if s.border() {
			s.edge = t.lower.side[c]
			s.from, s.to = t.cornerNode(&t.lower, r, c), t.cornerNode(&t.lower, r, c+1)
			t.border(s)
		}
	}
}

// sideAcross handles the side at column c of corners between corner rows r
// and r+1, from north to south, and returns the edge crossed there, or -1.
// The cells beside it are in the row above the lower corners.
func (t *tracer) sideAcross(r, c int) int32 {
	west, east := c, c+1
	if plain(t.above.dated[east], t.above.dated[west], t.upper.band[c], t.lower.band[c], t.above.label[east], t.above.label[west]) {
		return -1
	}
	s := side{
		left: t.above.label[east], right: t.above.label[west],
		leftDated: t.above.dated[east], rightDated: t.above.dated[west],
		bandFrom: t.upper.band[c], bandTo: t.lower.band[c], edge: -1,
	}
	if s.leftDated || s.rightDated {
		s.edge = t.cross(corner(r, c), corner(r+1, c), t.upper.day[c], t.lower.day[c], s.bandFrom, s.bandTo)
	}
	if s.border() {
		s.from, s.to = t.cornerNode(&t.upper, r, c), t.cornerNode(&t.lower, r+1, c)
		t.border(s)
	}
	return s.edge
}

// plain reports whether nothing crosses a side and it is no border, as of most
// sides: both cells beside it have days and the corners one band, or both have
// none and they have one label.
func plain(leftDated, rightDated bool, bandFrom, bandTo, left, right int16) bool {
	return leftDated == rightDated && (leftDated && bandFrom == bandTo || !leftDated && left == right)
}

// side is the side of a cell between two corners.
type side struct {
	from, to              int32 // corner nodes
	edge                  int32 // its crossings, -1 for none
	bandFrom, bandTo      int16 // at the corners, where a cell beside it has a day
	left, right           int16
	leftDated, rightDated bool
}

// border reports whether the sides differ other than by contours.
func (s side) border() bool {
	return s.leftDated != s.rightDated || !s.leftDated && s.left != s.right
}

// border adds the pieces of a side, cut where contours end on it.
func (t *tracer) border(s side) {
	band, from := s.bandFrom, s.from
	add := func(to int32) {
		p := piece{from: from, to: to, left: s.left, right: s.right}
		if s.leftDated {
			p.left = band
		}
		if s.rightDated {
			p.right = band
		}
		t.pieces = append(t.pieces, p)
		from = to
	}
	if s.edge >= 0 {
		e := t.edges[s.edge]
		for n := e.first; n < e.last; n++ {
			add(n)
			band += int16(e.step)
		}
	}
	add(s.to)
}
