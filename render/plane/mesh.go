package plane

import (
	"math"
	"slices"
)

// Mesh is a set of shapes cut into arcs where their outlines meet, so that
// shapes that share a border share it when it is thinned.
type Mesh struct {
	shapes [][]loop
	arcs   [][]tenths
}

// loop is a ring made of arcs, in order.
type loop []arcUse

// arcUse is an arc passed forward or backward.
type arcUse struct {
	arc      int
	backward bool
}

// NewMesh cuts the closed lines of shapes, rounded to tenths of a pixel, into
// arcs and thins these, so that no place is farther than slack tenths of a
// pixel from where it was. Arcs end where more than two lines meet.
func NewMesh(paths []*Path, slack float64) *Mesh {
	m := &Mesh{shapes: make([][]loop, len(paths))}
	rings := make([][][]tenths, len(paths))
	corners := map[tenths]joint{}
	for i, p := range paths {
		for _, l := range p.Lines {
			if places := rounded(l); l.Closed && len(places) > 2 {
				rings[i] = append(rings[i], places)
				adjoin(corners, places)
			}
		}
	}
	known := map[[3]tenths]int{}
	for i := range rings {
		for _, ring := range rings[i] {
			m.shapes[i] = append(m.shapes[i], m.cut(ring, corners, known))
		}
	}
	for i, arc := range m.arcs {
		m.arcs[i] = thin(arc, slack)
	}
	return m
}

// joint notes the places next to one, up to three of them.
type joint struct {
	next  [3]tenths
	count int
}

// adjoin notes the neighbours of each place of a ring.
func adjoin(corners map[tenths]joint, ring []tenths) {
	before := ring[len(ring)-1]
	for i, at := range ring {
		c := corners[at]
		for _, q := range [...]tenths{before, ring[(i+1)%len(ring)]} {
			if c.count < len(c.next) && !slices.Contains(c.next[:c.count], q) {
				c.next[c.count] = q
				c.count++
			}
		}
		corners[at] = c
		before = at
	}
}

// cut returns a ring as arcs between places where lines meet. A ring that
// meets no other is one arc from its least place.
func (m *Mesh) cut(ring []tenths, corners map[tenths]joint, known map[[3]tenths]int) loop {
	start := slices.IndexFunc(ring, func(t tenths) bool { return corners[t].count > 2 })
	if start < 0 {
		start = slices.Index(ring, slices.MinFunc(ring, tenths.compare))
	}
	var out loop
	arc := []tenths{ring[start]}
	for k := 1; k <= len(ring); k++ {
		t := ring[(start+k)%len(ring)]
		arc = append(arc, t)
		if k == len(ring) || corners[t].count > 2 {
			out = append(out, m.use(arc, known))
			arc = []tenths{t}
		}
	}
	return out
}

// use returns an arc of the mesh in either direction, which its ends and the
// place after the first tell from all others.
func (m *Mesh) use(arc []tenths, known map[[3]tenths]int) arcUse {
	n := len(arc)
	if i, ok := known[[3]tenths{arc[0], arc[1], arc[n-1]}]; ok && len(m.arcs[i]) == n {
		return arcUse{arc: i}
	}
	if i, ok := known[[3]tenths{arc[n-1], arc[n-2], arc[0]}]; ok && len(m.arcs[i]) == n {
		return arcUse{arc: i, backward: true}
	}
	known[[3]tenths{arc[0], arc[1], arc[n-1]}] = len(m.arcs)
	m.arcs = append(m.arcs, arc)
	return arcUse{arc: len(m.arcs) - 1}
}

// along appends the places of an arc but the last.
func (m *Mesh) along(places []tenths, u arcUse) []tenths {
	arc := m.arcs[u.arc]
	if !u.backward {
		return append(places, arc[:len(arc)-1]...)
	}
	for _, t := range slices.Backward(arc[1:]) {
		places = append(places, t)
	}
	return places
}

// speck is the area in square pixels under which an island in one other shape
// falls away, from its own shape and as a hole from the other.
const speck = 0.5

// Paths returns the thinned shapes in their order; one of which nothing is left
// is empty.
func (m *Mesh) Paths() []*Path {
	out := make([]*Path, len(m.shapes))
	for i, loops := range m.shapes {
		out[i] = &Path{}
		for _, l := range loops {
			var places []tenths
			for _, u := range l {
				places = m.along(places, u)
			}
			points := inPixels(places)
			if len(l) == 1 && len(points) > 2 && math.Abs(Turning(points)) < 2*speck {
				continue
			}
			out[i].AddRing(points...)
		}
	}
	return out
}

// Union returns the thinned outline of all shapes together: borders passed in
// both directions fall away.
func (m *Mesh) Union() *Path {
	net := make([]int, len(m.arcs))
	for _, loops := range m.shapes {
		for _, l := range loops {
			for _, u := range l {
				if u.backward {
					net[u.arc]--
				} else {
					net[u.arc]++
				}
			}
		}
	}
	from := map[tenths][]arcUse{}
	var order []arcUse
	for i, n := range net {
		u := arcUse{arc: i, backward: n < 0}
		for range max(n, -n) {
			from[m.first(u)] = append(from[m.first(u)], u)
			order = append(order, u)
		}
	}
	var out Path
	for _, u := range order {
		if places := m.walk(from, m.first(u)); places != nil {
			out.AddRing(inPixels(places)...)
		}
	}
	return &out
}

// first returns where an arc begins.
func (m *Mesh) first(u arcUse) tenths {
	arc := m.arcs[u.arc]
	if u.backward {
		return arc[len(arc)-1]
	}
	return arc[0]
}

// walk follows arcs that are left from a place until it is back; nil when
// none is left there. As many arcs end at a place as begin, so it gets back.
func (m *Mesh) walk(from map[tenths][]arcUse, start tenths) []tenths {
	var places []tenths
	for at := start; len(from[at]) > 0; {
		left := from[at]
		u := left[len(left)-1]
		from[at] = left[:len(left)-1]
		places = m.along(places, u)
		if at = m.first(arcUse{arc: u.arc, backward: !u.backward}); at == start {
			break
		}
	}
	return places
}
