package bands_test

import (
	"math"
	"math/rand"
	"runtime"
	"testing"

	"weekband/grid"
	"weekband/regions/bands"
)

// waves returns an irregular smooth field with a coast, islands, lakes and a
// patch of class 1 at its peaks.
func waves(t testing.TB, rows, cols int, seed int64) bands.Field {
	r := rand.New(rand.NewSource(seed))
	type wave struct{ x, y, phase, size float64 }
	list := make([]wave, 14)
	for i := range list {
		k, turn := 3+27*r.Float64(), 2*math.Pi*r.Float64()
		list[i] = wave{k * math.Cos(turn), k * math.Sin(turn), 2 * math.Pi * r.Float64(), 3 / k}
	}
	at := func(x, y float64) float64 {
		sum := 0.0
		for _, w := range list {
			sum += w.size * math.Sin(w.x*x+w.y*y+w.phase)
		}
		return sum
	}
	value := func(row, col int) (v float64, x, y float64) {
		x, y = float64(col)/float64(cols), float64(row)/float64(rows)
		return at(x, y), x, y
	}
	f := newField(t, rows, cols, func(row, col int) (float64, bool) {
		v, x, y := value(row, col)
		return 100 + 20*v + 30*y, v <= 1.2 && at(1.5*x+3, 1.5*y+5) >= -0.6
	})
	for row := range rows {
		for col := range cols {
			if v, _, _ := value(row, col); v > 1.2 {
				f.Class.Set(grid.Cell{Row: row, Col: col}, 1)
			}
		}
	}
	return f
}

// Eleven weeks of a country at 4 km.
func BenchmarkTrace(b *testing.B) {
	f := waves(b, 596, 1385, 1)
	breaks := []float64{70, 77, 84, 91, 98, 105, 112, 119, 126, 133, 140}
	perCell(b, f, func() {
		if _, err := bands.Trace(f, breaks, bands.Options{}); err != nil {
			b.Fatal(err)
		}
	})
}

func BenchmarkExtend(b *testing.B) {
	f := waves(b, 596, 1385, 1)
	perCell(b, f, func() { f.Extend(3) })
}

// perCell runs work on a field, and reports how many cells it does in a second
// and how much memory it asks for by the cell.
func perCell(b *testing.B, f bands.Field, work func()) {
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	for b.Loop() {
		work()
	}
	runtime.ReadMemStats(&after)
	cells := float64(b.N) * float64(f.Day.Grid().Cells())
	b.ReportMetric(cells/b.Elapsed().Seconds(), "cells/s")
	b.ReportMetric(float64(after.TotalAlloc-before.TotalAlloc)/cells, "B/cell")
}
