package arcs

import (
	"github.com/paulmach/orb"
)

// Build finds the borders that shapes share. Two borders are shared where
// they run through equal vertices; borders that coincide without sharing
// vertices stay separate lines. Rings must be closed; rings of fewer than
// four positions are left out. The shapes are not changed.
func Build(shapes []orb.MultiPolygon) *Topology {
	b := newBuilder(shapes)
	b.findJunctions(shapes)
	t := &Topology{shapes: make([][][][]int32, len(shapes))}
	for s, shape := range shapes {
		t.shapes[s] = make([][][]int32, len(shape))
		for p, polygon := range shape {
			for _, ring := range polygon {
				if ids := b.ids(ring); len(ids) >= 3 {
					t.shapes[s][p] = append(t.shapes[s][p], b.cut(t, ids))
				}
			}
		}
	}
	return t
}

// builder numbers the distinct vertices and knows which are junctions.
type builder struct {
	number map[orb.Point]int32
	points []orb.Point
	// sides holds the two neighbours of a vertex where first met, the lesser
	// first; {-1, -1} before that.
	sides    [][2]int32
	junction []bool
	// known maps the first two vertices of every arc, seen from either end,
	// to the arc. Inner vertices have no choice of neighbours, so two
	// vertices name the whole arc.
	known map[[2]int32]int32
	ring  []int32
}

func newBuilder(shapes []orb.MultiPolygon) *builder {
	n := 0
	for _, shape := range shapes {
		for _, polygon := range shape {
			for _, ring := range polygon {
				n += len(ring)
			}
		}
	}
	return &builder{number: make(map[orb.Point]int32, n), known: map[[2]int32]int32{}}
}

// ids returns the numbers of a ring's vertices without the closing one and
// without repeats. The slice is reused by the next call.
func (b *builder) ids(ring orb.Ring) []int32 {
	b.ring = b.ring[:0]
	if len(ring) < 4 {
		return nil
	}
	for _, p := range ring[:len(ring)-1] {
		id, ok := b.number[p]
		if !ok {
			id = int32(len(b.points))
			b.number[p] = id
			b.points = append(b.points, p)
			b.sides = append(b.sides, [2]int32{-1, -1})
			b.junction = append(b.junction, false)
		}
		if n := len(b.ring); n == 0 || b.ring[n-1] != id {
			b.ring = append(b.ring, id)
		}
	}
	if n := len(b.ring); n > 1 && b.ring[0] == b.ring[n-1] {
		b.ring = b.ring[:n-1]
	}
	return b.ring
}

// findJunctions marks the vertices that have other neighbours in one ring, or
// at one pass of a ring, than in another.
func (b *builder) findJunctions(shapes []orb.MultiPolygon) {
	for _, shape := range shapes {
		for _, polygon := range shape {
			for _, ring := range polygon {
				ids := b.ids(ring)
				for i, id := range ids {
					before, after := ids[(i+len(ids)-1)%len(ids)], ids[(i+1)%len(ids)]
					sides := [2]int32{min(before, after), max(before, after)}
					switch {
					case before == after: // the tip of a spike
						b.junction[id] = true
					case b.sides[id][0] < 0:
						b.sides[id] = sides
					case b.sides[id] != sides:
						b.junction[id] = true
					}
				}
			}
		}
	}
}

// cut splits a ring at its junctions and returns the arcs it consists of,
// adding those not seen before to t.
func (b *builder) cut(t *Topology, ids []int32) []int32 {
	start, n := 0, len(ids)
	for start < n && !b.junction[ids[start]] {
		start++
	}
	if start == n {
		return []int32{b.loop(t, ids)}
	}
	var refs []int32
	for from := 0; from < n; {
		to := from + 1
		for !b.junction[ids[(start+to)%n]] {
			to++
		}
		arc := make([]int32, 0, to-from+1)
		for i := from; i <= to; i++ {
			arc = append(arc, ids[(start+i)%n])
		}
		refs = append(refs, b.arc(t, arc))
		from = to
	}
	return refs
}

// loop returns the arc of a ring without junctions. It begins at the ring's
// lowest vertex, so that equal rings give one arc.
func (b *builder) loop(t *Topology, ids []int32) int32 {
	first, n := 0, len(ids)
	for i, id := range ids {
		if id < ids[first] {
			first = i
		}
	}
	arc := make([]int32, n+1)
	for i := range arc {
		arc[i] = ids[(first+i)%n]
	}
	return b.arc(t, arc)
}

// arc returns the reference of a run of vertices, negative when it is known
// the other way round.
func (b *builder) arc(t *Topology, ids []int32) int32 {
	n := len(ids)
	head, tail := [2]int32{ids[0], ids[1]}, [2]int32{ids[n-1], ids[n-2]}
	if ref, ok := b.known[head]; ok {
		return ref
	}
	ref := int32(len(t.Lines))
	line := make(orb.LineString, n)
	for i, id := range ids {
		line[i] = b.points[id]
	}
	t.Lines = append(t.Lines, line)
	b.known[tail] = ^ref
	b.known[head] = ref
	return ref
}
