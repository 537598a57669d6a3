package abreast_test

import (
	"fmt"
	"sync/atomic"
	"testing"

	"weekband/grid/abreast"
)

func ExampleEach() {
	squares := make([]int, 5)
	abreast.Each(len(squares), func(i int) { squares[i] = i * i })
	fmt.Println(squares)
	// Output: [0 1 4 9 16]
}

// Every job is done once, whatever their number, in room that no two share at a
// time.
func TestEveryJobOnce(t *testing.T) {
	type room struct{ busy atomic.Bool }
	for _, n := range []int{0, 1, 2, 1000} {
		times := make([]atomic.Int32, n)
		abreast.EachWith(n, func(i int, r *room) {
			if !r.busy.CompareAndSwap(false, true) {
				t.Error("two jobs share a room")
			}
			times[i].Add(1)
			r.busy.Store(false)
		})
		for i := range times {
			if got := times[i].Load(); got != 1 {
				t.Errorf("job %d of %d was done %d times", i, n, got)
			}
		}
	}
}
