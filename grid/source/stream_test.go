package source

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"sync"
	"testing"

	"weekband/grid"
	"weekband/grid/source/geotiff"
)

// bigFile writes 12 months of rows × cols cells in whole tenths.
func bigFile(t testing.TB, rows, cols int) string {
	t.Helper()
	g, err := grid.New(grid.Box{West: -125, East: -65, North: 50, South: 24}, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "big.tif")
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	err = geotiff.Encode(file, g, 12, func(layer, first, n int, vals []float32, has []bool) error {
		for i := range vals {
			vals[i], has[i] = cellValue(layer, first+i/cols, i%cols)
		}
		return nil
	}, geotiff.WriteOptions{Store: geotiff.Int16, Scale: 0.125})
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// cellValue is what bigFile holds: sea in some cells.
func cellValue(layer, row, col int) (float32, bool) {
	return float32(8*layer+row%9)/8 + float32(col/64%16), (row+col)%13 > 0
}

// TestNormalsStream reads 38 MB of temperatures in several goroutines and
// checks every value and that memory stays far below that.
func TestNormalsStream(t *testing.T) {
	const rows, cols, block = 400, 2000, 10
	path := bigFile(t, rows, cols)
	n, err := OpenNormals([]string{path}, NormalsOptions{CacheBytes: 4 << 20})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	defer debug.SetGCPercent(debug.SetGCPercent(20))
	runtime.GC()
	var before, peak runtime.MemStats
	runtime.ReadMemStats(&before)
	var mu sync.Mutex
	var wg sync.WaitGroup
	next := make(chan int)
	for range 3 {
		wg.Go(func() {
			var r Rows
			for first := range next {
				if err := n.Read(first, block, &r); err != nil {
					t.Error(err)
					return
				}
				for i, ok := range r.Has {
					for layer := range 12 {
						if want, has := cellValue(layer, first+i/cols, i%cols); ok != has || ok && r.Vals[layer][i] != want {
							t.Errorf("layer %d, row %d, column %d: %v %v, want %v %v", layer, first+i/cols, i%cols, r.Vals[layer][i], ok, want, has)
							return
						}
					}
				}
				mu.Lock()
				var now runtime.MemStats
				runtime.ReadMemStats(&now)
				peak.HeapAlloc = max(peak.HeapAlloc, now.HeapAlloc)
				mu.Unlock()
			}
		})
	}
	for first := 0; first < rows; first += block {
		next <- first
	}
	close(next)
	wg.Wait()
	if grown := int64(peak.HeapAlloc) - int64(before.HeapAlloc); grown > 16<<20 {
		t.Errorf("memory grew by %d bytes", grown)
	}
}

func BenchmarkNormals(b *testing.B) {
	const rows, cols, block = 256, 2000, 16
	n, err := OpenNormals([]string{bigFile(b, rows, cols)}, NormalsOptions{CacheBytes: 1 << 20}) // less than the file: nothing stays from run to run
	if err != nil {
		b.Fatal(err)
	}
	defer n.Close()
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("workers=%d", workers), func(b *testing.B) {
			b.SetBytes(12 * 4 * rows * cols)
			for b.Loop() {
				var wg sync.WaitGroup
				for w := range workers {
					wg.Go(func() {
						var r Rows
						for first := w * block; first < rows; first += workers * block {
							if err := n.Read(first, block, &r); err != nil {
								b.Error(err)
								return
							}
						}
					})
				}
				wg.Wait()
			}
			b.ReportMetric(float64(b.N)*rows*cols/b.Elapsed().Seconds(), "cells/s")
		})
	}
}
