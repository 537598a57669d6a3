package zonal

import (
	"runtime"
	"sync"
	"sync/atomic"

	"weekband/grid"
	"weekband/regions"
)

// CoverAll returns the coverage of every region of a set, in its order. It
// works on all processors; the result does not depend on their number.
func CoverAll(set regions.Set, g grid.Grid) []Coverage {
	out := make([]Coverage, len(set.Regions))
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(out)) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(out); i = int(next.Add(1)) - 1 {
				out[i] = Cover(set.Regions[i].Shape, g)
			}
		})
	}
	wait.Wait()
	return out
}
