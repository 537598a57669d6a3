package geotiff

import (
	"bytes"
	"sync"
	"testing"
)

// TestReadTogether reads in several goroutines with room for all, some and
// none of the tiles.
func TestReadTogether(t *testing.T) {
	p := small(float32s)
	p.comp, p.predictor, p.tileW, p.blockH = compDeflate, 3, 16, 16
	b := p.build()
	for _, budget := range []int64{1, 8 << 10, 64 << 20} {
		f := open(t, b, Options{CacheBytes: budget})
		var wg sync.WaitGroup
		for n := range 6 {
			wg.Go(func() { check(t, f, p.rows, p.cols, n+1, p.want) })
		}
		wg.Wait()
		if f.cache.used > budget {
			t.Errorf("%d bytes kept of %d", f.cache.used, budget)
		}
		for _, b := range f.cache.blocks {
			if b.refs != 0 || b.place == nil {
				t.Errorf("block %d left with %d users", b.number, b.refs)
			}
		}
	}
}

// counting counts reads.
type counting struct {
	r     *bytes.Reader
	count int
}

func (c *counting) ReadAt(b []byte, at int64) (int, error) { c.count++; return c.r.ReadAt(b, at) }

// TestReadTilesOnce checks that reading row by row decodes each tile once
// when a row of tiles fits, and seldom more than the share that does not.
func TestReadTilesOnce(t *testing.T) {
	p := small(float32s)
	p.comp, p.tileW, p.blockH, p.bands, p.rows = compDeflate, 16, 16, 1, 32
	b := p.build()
	for _, c := range []struct {
		budget int64
		reads  int
	}{
		{4 * 16 * 16 * 4, 2 * 4},
		{2 * 16 * 16 * 4, 2 * (2 + 2*16)}, // two of four tiles stay, two are decoded for each row
	} {
		r := &counting{r: bytes.NewReader(b)}
		f, err := Open(r, int64(len(b)), "x", Options{CacheBytes: c.budget})
		if err != nil {
			t.Fatal(err)
		}
		r.count = 0
		check(t, f, p.rows, p.cols, 1, p.want)
		if r.count != c.reads {
			t.Errorf("room for %d bytes: %d reads, want %d", c.budget, r.count, c.reads)
		}
	}
}
