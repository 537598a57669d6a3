package render

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// each does a job for every number under n, as many at a time as there are
// processors.
func each(n int, job func(i int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		all.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				job(i)
			}
		})
	}
	all.Wait()
}

// eachRow runs do for every row, rows spread over all processors.
func eachRow(rows int, do func(row int)) {
	const strip = 16
	each((rows+strip-1)/strip, func(i int) {
		for row := i * strip; row < min((i+1)*strip, rows); row++ {
			do(row)
		}
	})
}
