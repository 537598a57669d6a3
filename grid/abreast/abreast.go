package abreast

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// Each calls do for every i in [0, n), as many at a time as there are
// processors. What do writes must depend on i only: then the result does not
// depend on their number.
func Each(n int, do func(i int)) {
	EachWith(n, func(i int, _ *struct{}) { do(i) })
}

// EachWith is Each where every goroutine has room of its own, zero at first,
// that its jobs use again and again. It must not matter who used it before.
func EachWith[Room any](n int, do func(i int, room *Room)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			var room Room
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i, &room)
			}
		})
	}
	all.Wait()
}
