package zonal

import (
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"weekband/grid"
	"weekband/regions"
)

// CoverAll returns the coverage of every region of a set, in its order. It
// works on all processors; the result does not depend on their number.
func CoverAll(set regions.Set, g grid.Grid) []Coverage {
	out := make([]Coverage, len(set.Regions))
	areas := make([]float64, g.Rows())
	for row := range areas {
		areas[row] = g.CellArea(row)
	}
	each(len(out), func(i int, s *scratch) {
		o := outlineOf(set.Regions[i].Shape, g)
		s.runs = o.cover(0, g.Rows(), &s.row, s.runs[:0])
		out[i] = Coverage{Grid: g, Runs: slices.Clone(s.runs), Outside: o.outside, areas: areas}
	})
	return out
}

// scratch is room that one goroutine uses again and again. Runs are copied out
// of it, so that none keeps room for more.
type scratch struct {
	row  scanRow
	runs []Run
}

// each calls do for every i in [0, n), on several goroutines at once. What do
// writes must depend on i only: then the result does not depend on the number
// of goroutines.
func each(n int, do func(i int, s *scratch)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			var s scratch
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i, &s)
			}
		})
	}
	wait.Wait()
}
