package source

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Whatever a file holds, it is read or refused by its name, and its cells lie
// on the globe.
func FuzzDecode(f *testing.F) {
	for _, name := range []string{"world/tavg-03.asc", "grids/sound.nc", "grids/lon-0-360.nc", "grids/sound.tif", "grids/same-tiles.tif", "grids/metres.asc"} {
		b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "broken", name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(b)
	}
	f.Fuzz(func(t *testing.T, b []byte) {
		l, err := Decode(bytes.NewReader(b), int64(len(b)), "x.grid", Options{CacheBytes: 1 << 20})
		if err != nil {
			if !strings.HasPrefix(err.Error(), "x.grid: ") && !strings.HasPrefix(err.Error(), "x.grid:") {
				t.Errorf("no name in %q", err)
			}
			return
		}
		g := l.Grid()
		if box := g.Box(); box.West < -180 || box.East > 180 || box.South < -90 || box.North > 90 || l.Count() < 1 {
			t.Errorf("%v, %d layers", g, l.Count())
		}
		if g.Cols() > 1<<16 {
			return
		}
		vals, has := make([]float32, g.Cols()), make([]bool, g.Cols())
		for _, row := range []int{0, g.Rows() - 1} {
			if err := l.Read(l.Count()-1, row, 1, vals, has); err != nil && !strings.HasPrefix(err.Error(), "x.grid:") {
				t.Errorf("no name in %q", err)
			}
		}
	})
}
