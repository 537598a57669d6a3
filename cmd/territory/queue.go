package main

// queue hands out nodes by rising rank; equal ranks by rising node, so that
// the order is always the same. The zero value is empty. It is a binary heap
// of plain entries: container/heap boxes each one, which took most of the
// generator's time.
type queue struct{ heap []entry }

type entry struct {
	rank float64
	node int
}

func (e entry) before(o entry) bool {
	return e.rank < o.rank || e.rank == o.rank && e.node < o.node
}

func (q *queue) len() int { return len(q.heap) }

func (q *queue) push(rank float64, node int) {
	q.heap = append(q.heap, entry{rank, node})
	i := len(q.heap) - 1
	for i > 0 {
		up := (i - 1) / 2
		if !q.heap[i].before(q.heap[up]) {
			return
		}
		q.heap[i], q.heap[up] = q.heap[up], q.heap[i]
		i = up
	}
}

// pop returns the first node; the queue must not be empty.
func (q *queue) pop() int { return q.next().node }

func (q *queue) next() entry {
	first, last := q.heap[0], len(q.heap)-1
	q.heap[0] = q.heap[last]
	q.heap = q.heap[:last]
	for i := 0; ; {
		down := 2*i + 1
		if down >= last {
			return first
		}
		if down+1 < last && q.heap[down+1].before(q.heap[down]) {
			down++
		}
		if !q.heap[down].before(q.heap[i]) {
			return first
		}
		q.heap[i], q.heap[down] = q.heap[down], q.heap[i]
		i = down
	}
}
