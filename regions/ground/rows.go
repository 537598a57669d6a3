package ground

// rows holds segments by the bands of latitude they pass through, to find
// what lies west of a point.
type rows struct {
	list  []segment
	low   int64
	side  int64
	bands [][]int32
}

func newRows(list []segment) *rows {
	r := &rows{list: list, side: 1}
	if len(list) == 0 {
		return r
	}
	low, high, tall := list[0].a.y, list[0].b.y, int64(0)
	for _, s := range list {
		low, high = min(low, s.a.y), max(high, s.b.y)
		tall += s.b.y - s.a.y
	}
	r.low = low
	// Bands as high as the mean segment: then each lies in two or so.
	r.side = max(tall/int64(len(list)), (high-low)/8192, 1)
	r.bands = make([][]int32, (high-low)/r.side+1)
	for i, s := range list {
		for b := r.band(s.a.y); b <= r.band(s.b.y); b++ {
			r.bands[b] = append(r.bands[b], int32(i))
		}
	}
	return r
}

// band returns the number of the band that a latitude lies in.
func (r *rows) band(y int64) int64 { return (y - r.low) / r.side }

// west visits the rings of the segments west of the middle of a segment,
// which none of them passes through. own is the number of a segment to leave
// out, −1 for none.
func (r *rows) west(of segment, own int, visit func(rings []int32)) {
	// Twice everything, so that the middle is on the lattice.
	m := point{of.a.x + of.b.x, of.a.y + of.b.y}
	y := m.y >> 1 // down, also below 0
	band := r.band(y)
	if y < r.low || band >= int64(len(r.bands)) {
		return
	}
	for _, i := range r.bands[band] {
		s := &r.list[i]
		if s.b.y < y || s.a.y > y+1 || s.west() > m.x>>1+1 {
			continue // seen without more ado
		}
		a, b := point{2 * s.a.x, 2 * s.a.y}, point{2 * s.b.x, 2 * s.b.y}
		if int(i) != own && compare(a, m) <= 0 && compare(m, b) < 0 && turn(a, b, m) < 0 {
			visit(s.rings)
		}
	}
}
