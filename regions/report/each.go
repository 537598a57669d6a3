package report

import (
	"runtime"
	"sync"
	"sync/atomic"

	"weekband/grid/worth"
)

// each calls do for every i in [0, n), on several goroutines at once, each
// with a season of its own as scratch. What do writes must depend on i only:
// then the result does not depend on the number of goroutines.
func each(n int, do func(i int, s *worth.Season)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wg.Go(func() {
			var s worth.Season
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i, &s)
			}
		})
	}
	wg.Wait()
}
