package arcs

// entry is a vertex to drop, with the area of its triangle.
type entry struct {
	area    float64
	id      int32
	version uint32
}

// before orders entries by area, then by id so that runs agree.
func (e entry) before(o entry) bool { return e.area < o.area || e.area == o.area && e.id < o.id }

// queue is a heap of entries, the first on top: entry i comes before entries
// 2i+1 and 2i+2. It is that of container/heap without an interface for each
// entry, which is where thinning spent most of its time.
type queue []entry

// order makes a heap of entries in any order.
func (q queue) order() {
	for i := len(q)/2 - 1; i >= 0; i-- {
		q.sink(i)
	}
}

func (q *queue) push(e entry) {
	list := append(*q, e)
	i := len(list) - 1
	for i > 0 && e.before(list[(i-1)/2]) {
		list[i] = list[(i-1)/2]
		i = (i - 1) / 2
	}
	list[i] = e
	*q = list
}

// pop takes the first entry off; the queue must not be empty.
func (q *queue) pop() entry {
	list := *q
	first, last := list[0], len(list)-1
	list[0] = list[last]
	*q = list[:last]
	if last > 0 {
		list[:last].sink(0)
	}
	return first
}

// sink moves entry i down to its place.
func (q queue) sink(i int) {
	e := q[i]
	for {
		next := 2*i + 1
		if next >= len(q) {
			break
		}
		if next+1 < len(q) && q[next+1].before(q[next]) {
			next++
		}
		if !q[next].before(e) {
			break
		}
		q[i] = q[next]
		i = next
	}
	q[i] = e
}
