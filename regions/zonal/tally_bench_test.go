package zonal_test

import (
	"fmt"
	"math"
	"math/rand"
	"runtime"
	"sync"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/regions"
	"weekband/regions/zonal"
)

// parishes are 62 × 50 regions that fill a box, with wandering borders of some
// forty points to a region.
func parishes(b grid.Box) regions.Set {
	const rows, cols, parts = 62, 50, 10
	r := rand.New(rand.NewSource(1))
	w, h := (b.East-b.West)/cols, (b.North-b.South)/rows
	corners := make([]orb.Point, (rows+1)*(cols+1))
	for i := range corners {
		y, x := i/(cols+1), i%(cols+1)
		p := orb.Point{b.West + w*float64(x), b.South + h*float64(y)}
		if x > 0 && x < cols {
			p[0] += w * 0.3 * (r.Float64() - 0.5)
		}
		if y > 0 && y < rows {
			p[1] += h * 0.3 * (r.Float64() - 0.5)
		}
		corners[i] = p
	}
	// border wanders from one corner to another; the way back is the same.
	border := func(i, j int) orb.LineString {
		p, q := corners[min(i, j)], corners[max(i, j)]
		turns := rand.New(rand.NewSource(int64(min(i, j)*10_000 + max(i, j))))
		var line orb.LineString
		for k := range parts + 1 {
			t, off := float64(k)/parts, 0.08*(turns.Float64()-0.5)
			if k == 0 || k == parts {
				off = 0
			}
			line = append(line, orb.Point{p[0] + t*(q[0]-p[0]) - off*h, p[1] + t*(q[1]-p[1]) + off*w})
		}
		if i > j {
			line.Reverse()
		}
		return line[:parts]
	}
	var set regions.Set
	for y := range rows {
		for x := range cols {
			sw := y*(cols+1) + x
			se, nw, ne := sw+1, sw+cols+1, sw+cols+2
			var ring orb.Ring
			for _, line := range []orb.LineString{border(sw, se), border(se, ne), border(ne, nw), border(nw, sw)} {
				ring = append(ring, line...)
			}
			shape := orb.MultiPolygon{{append(ring, ring[0])}}
			set.Regions = append(set.Regions, regions.Region{Shape: shape, Bounds: regions.BoundsOf(shape)})
		}
	}
	return set
}

// fineGrid has 22 million cells, those of 800 m of a continent.
func fineGrid(b *testing.B) grid.Grid {
	return mustGrid(b, grid.Box{West: -60, South: 30, East: -1.46, North: 55.875}, 3105, 7025)
}

// spring is a block of ground that crosses later to the north, with hills.
func spring(g grid.Grid, first, rows int) *zonal.Cells {
	n := rows * g.Cols()
	b := &zonal.Cells{First: first, Rows: rows, Reason: make([]crossing.Reason, n), Day: make([]float32, n), OntimeFrom: make([]float32, n), CatchupTo: make([]float32, n)}
	for i := range n {
		row, col := first+i/g.Cols(), i%g.Cols()
		day := 120 - 0.03*float64(row) + 15*math.Sin(float64(row)/37)*math.Cos(float64(col)/53)
		b.Reason[i], b.Day[i] = crossing.Dated, float32(day)
		b.OntimeFrom[i], b.CatchupTo[i] = float32(day*0.9-10), float32(day*1.1+20)
	}
	return b
}

// perCell reports cells and regions a second.
func perCell(b *testing.B, cells, regions int) {
	seconds := b.Elapsed().Seconds() / float64(b.N)
	b.ReportMetric(float64(cells)/seconds, "cells/s")
	b.ReportMetric(float64(regions)/seconds, "regions/s")
}

// heldBy returns how much more of the heap is in use after make, in bytes.
func heldBy(make func() any) float64 {
	var before, after runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&before)
	kept := make()
	runtime.GC()
	runtime.ReadMemStats(&after)
	runtime.KeepAlive(kept)
	return float64(after.HeapAlloc) - float64(before.HeapAlloc)
}

func BenchmarkCoverAll(b *testing.B) {
	g := fineGrid(b)
	set := parishes(g.Box())
	for b.Loop() {
		zonal.CoverAll(set, g)
	}
	perCell(b, g.Cells(), len(set.Regions))
	b.ReportMetric(heldBy(func() any { return zonal.CoverAll(set, g) })/float64(g.Cells()), "B/cell")
}

// The same by blocks of 16 rows, none of which is kept.
func BenchmarkSweep(b *testing.B) {
	g := fineGrid(b)
	set := parishes(g.Box())
	for b.Loop() {
		sweep := zonal.NewSweep(set, g)
		for first := 0; first < g.Rows(); first += 16 {
			sweep.Rows(first, min(16, g.Rows()-first))
		}
	}
	perCell(b, g.Cells(), len(set.Regions))
	b.ReportMetric(heldBy(func() any { return zonal.NewSweep(set, g) })/float64(g.Cells()), "B/cell")
}

// Cover and tally of 22 million cells by blocks of 16 rows, one window.
func BenchmarkTally(b *testing.B) {
	g := fineGrid(b)
	set := parishes(g.Box())
	var blocks []*zonal.Cells
	for first := 0; first < g.Rows(); first += 16 {
		blocks = append(blocks, spring(g, first, min(16, g.Rows()-first)))
	}
	run := func(workers int) *zonal.Tally {
		sweep := zonal.NewSweep(set, g)
		tally := zonal.NewTally(sweep)
		var wait sync.WaitGroup
		for k := range workers {
			wait.Go(func() {
				for i := k; i < len(blocks); i += workers {
					tally.Add(blocks[i], sweep.Rows(blocks[i].First, blocks[i].Rows))
				}
			})
		}
		wait.Wait()
		return tally
	}
	for _, workers := range []int{1, runtime.GOMAXPROCS(0)} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			for b.Loop() {
				run(workers)
			}
			perCell(b, g.Cells(), len(set.Regions))
			b.ReportMetric(heldBy(func() any { return run(workers) })/float64(g.Cells()), "B/cell")
		})
	}
}

// Summaries of all regions from whole rasters, by one goroutine.
func BenchmarkSummarize(b *testing.B) {
	g := fineGrid(b)
	set := parishes(g.Box())
	day, reason := grid.NewRaster[float32](g), grid.NewRaster[crossing.Reason](g)
	for row := range g.Rows() {
		block := spring(g, row, 1)
		vals, has := day.Row(row)
		copy(vals, block.Day)
		why, known := reason.Row(row)
		copy(why, block.Reason)
		for col := range has {
			has[col], known[col] = true, true
		}
	}
	covers := zonal.CoverAll(set, g)
	for b.Loop() {
		for _, c := range covers {
			zonal.Summarize(c, day, reason)
		}
	}
	perCell(b, g.Cells(), len(set.Regions))
}
