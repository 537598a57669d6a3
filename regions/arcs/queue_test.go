package arcs

import (
	"cmp"
	"math/rand"
	"slices"
	"testing"
)

// A queue gives its entries in the order of a sort, whatever comes in between.
func TestQueueSorts(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	var q queue
	var want []entry
	for i := range int32(300) {
		e := entry{area: float64(r.Intn(40)), id: i} // many are equal
		q, want = append(q, e), append(want, e)
	}
	q.order()
	for i := range int32(300) {
		e := entry{area: float64(r.Intn(40)), id: 300 + i}
		q.push(e)
		want = append(want, e)
	}
	slices.SortFunc(want, func(a, b entry) int { return cmp.Or(cmp.Compare(a.area, b.area), cmp.Compare(a.id, b.id)) })
	for i, w := range want {
		if got := q.pop(); got != w {
			t.Fatalf("entry %d is %v, want %v", i, got, w)
		}
	}
	if len(q) != 0 {
		t.Errorf("%d entries left", len(q))
	}
}
