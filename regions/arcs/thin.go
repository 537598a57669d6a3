package arcs

import (
	"math"

	"github.com/paulmach/orb"
)

// Thin drops inner vertices from lines, in place, by effective area
// (Visvalingam & Whyatt 1993): again and again the vertex whose triangle with
// its two neighbours is smallest, as long as that area is at most tol(i)²,
// with tol(i) the tolerance of line i in coordinate units. Tolerance 0 drops
// vertices exactly on a straight line; a negative one keeps the line.
//
// Lines that do not cross still do not cross afterwards: a vertex stays while
// its triangle holds a vertex of any line. Ends never move. A line that ends
// where it began keeps at least three distinct vertices, and of several lines
// between the same two ends only one may become straight, so that no two
// become one.
func Thin(lines []orb.LineString, tol func(line int) float64) {
	t := newThinner(lines)
	for i, line := range lines {
		if limit := tol(i); limit >= 0 {
			t.add(i, line, limit*limit)
		}
	}
	t.queue.order()
	t.run()
	for i, line := range lines {
		kept := line[:0]
		for j, p := range line {
			if !t.gone[t.first[i]+int32(j)] {
				kept = append(kept, p)
			}
		}
		lines[i] = kept
	}
}

type thinner struct {
	points     []orb.Point
	prev, next []int32
	gone       []bool
	line       []int32 // of each vertex
	first      []int32 // vertex of each line
	size       []int32 // vertices left in each line
	group      []int32 // of lines with the same two ends, -1 for closed lines
	straight   []bool  // a line of the group has no inner vertex
	limit      []float64
	version    []uint32 // queue entries of an older version are stale
	queue      queue
	index      *vertexIndex
}

func newThinner(lines []orb.LineString) *thinner {
	t := &thinner{
		first: make([]int32, len(lines)), size: make([]int32, len(lines)), limit: make([]float64, len(lines)),
	}
	t.findGroups(lines)
	n := 0
	for _, line := range lines {
		n += len(line)
	}
	t.points = make([]orb.Point, 0, n)
	t.prev, t.next, t.line = make([]int32, n), make([]int32, n), make([]int32, n)
	for i, line := range lines {
		first := int32(len(t.points))
		t.first[i], t.size[i] = first, int32(len(line))
		t.points = append(t.points, line...)
		for id := first; id < int32(len(t.points)); id++ {
			t.prev[id], t.next[id], t.line[id] = id-1, id+1, int32(i)
		}
		if len(line) > 0 {
			t.prev[first], t.next[len(t.points)-1] = -1, -1
		}
	}
	t.gone = make([]bool, len(t.points))
	t.version = make([]uint32, len(t.points))
	t.index = newVertexIndex(t.points)
	return t
}

// findGroups finds the lines that have both ends in common.
func (t *thinner) findGroups(lines []orb.LineString) {
	known := map[[2]orb.Point]int32{}
	t.group = make([]int32, len(lines))
	for i, line := range lines {
		t.group[i] = -1
		if len(line) == 0 || line[0] == line[len(line)-1] {
			continue
		}
		a, b := line[0], line[len(line)-1]
		if b[0] < a[0] || b[0] == a[0] && b[1] < a[1] {
			a, b = b, a
		}
		group, ok := known[[2]orb.Point{a, b}]
		if !ok {
			group = int32(len(t.straight))
			known[[2]orb.Point{a, b}] = group
			t.straight = append(t.straight, false)
		}
		t.group[i] = group
		t.straight[group] = t.straight[group] || len(line) == 2
	}
}

// spare reports whether a line may lose one more vertex.
func (t *thinner) spare(line int32) bool {
	group := t.group[line]
	if group < 0 {
		return t.size[line] > 4
	}
	return t.size[line] > 3 || !t.straight[group]
}

// add queues the inner vertices of a line.
func (t *thinner) add(i int, line orb.LineString, limit float64) {
	t.limit[i] = limit
	for j := 1; j+1 < len(line); j++ {
		id := t.first[i] + int32(j)
		if area := t.area(id); area <= limit {
			t.queue = append(t.queue, entry{area: area, id: id})
		}
	}
}

func (t *thinner) area(id int32) float64 {
	return math.Abs(cross(t.points[t.prev[id]], t.points[id], t.points[t.next[id]])) / 2
}

func (t *thinner) run() {
	for len(t.queue) > 0 {
		e := t.queue.pop()
		if t.gone[e.id] || e.version != t.version[e.id] {
			continue
		}
		i := t.line[e.id]
		if !t.spare(i) || t.blocked(e.id) {
			continue
		}
		prev, next := t.prev[e.id], t.next[e.id]
		t.gone[e.id] = true
		t.index.remove(e.id)
		if t.size[i]--; t.size[i] == 2 {
			t.straight[t.group[i]] = true
		}
		t.next[prev], t.prev[next] = next, prev
		t.requeue(prev, e.area)
		t.requeue(next, e.area)
	}
}

// requeue measures a vertex again after its neighbour went. Its area counts
// as at least that of the neighbour, so that a bend is not eaten from one end.
func (t *thinner) requeue(id int32, floor float64) {
	if t.prev[id] < 0 || t.next[id] < 0 {
		return
	}
	t.version[id]++
	if area := max(t.area(id), floor); area <= t.limit[t.line[id]] {
		t.queue.push(entry{area: area, id: id, version: t.version[id]})
	}
}

// blocked reports whether a vertex other than its own three lies in the
// triangle of a vertex with its neighbours, edges included.
func (t *thinner) blocked(id int32) bool {
	a, b, c := t.points[t.prev[id]], t.points[id], t.points[t.next[id]]
	if cross(a, b, c) < 0 {
		a, c = c, a
	}
	return t.index.holds(a, b, c)
}
