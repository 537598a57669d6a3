//go:build unix

package sidebyside

import (
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"weekband/grid"
	"weekband/grid/source"
)

// expanse is invented ground as files, and its normals in memory.
type expanse struct {
	dir     string
	paths   []string
	regions string // GeoJSON
	normals *memory
}

// size is how large an expanse is.
type size struct{ rows, cols, regions int }

func (s size) String() string { return fmt.Sprintf("%d × %d cells", s.rows, s.cols) }

// invent makes an expanse and reads its normals.
func invent(t *testing.T, s size) *expanse {
	t.Helper()
	dir := t.TempDir()
	cmd := exec.Command("go", "run", "weekband/cmd/territory", "expanse", "-rows", fmt.Sprint(s.rows), "-cols", fmt.Sprint(s.cols),
		"-regions", fmt.Sprint(s.regions), "-out", dir)
	if text, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	paths, err := filepath.Glob(filepath.Join(dir, "normals", "*.tif"))
	if err != nil {
		t.Fatal(err)
	}
	e := &expanse{dir: dir, paths: paths, regions: filepath.Join(dir, fmt.Sprintf("regions-%d.geojson", s.regions))}
	n, err := source.OpenNormals(paths, source.NormalsOptions{})
	if err != nil {
		t.Fatal(err)
	}
	defer n.Close()
	e.normals = &memory{grid: n.Grid()}
	if err := n.Read(0, n.Grid().Rows(), &e.normals.rows); err != nil {
		t.Fatal(err)
	}
	return e
}

// memory is normals read before.
type memory struct {
	grid grid.Grid
	rows source.Rows
}

func (m *memory) Grid() grid.Grid { return m.grid }
func (m *memory) Layers() int     { return len(m.rows.Vals) }

// Read hands out the rows without copying them.
func (m *memory) Read(first, rows int, dst *source.Rows) error {
	from, to := first*m.grid.Cols(), (first+rows)*m.grid.Cols()
	dst.Vals = dst.Vals[:0]
	for _, layer := range m.rows.Vals {
		dst.Vals = append(dst.Vals, layer[from:to])
	}
	dst.Has = m.rows.Has[from:to]
	return nil
}

// cells returns the cells that have normals, in order.
func (m *memory) cells() []grid.Cell {
	var list []grid.Cell
	for i, ok := range m.rows.Has {
		if ok {
			list = append(list, grid.Cell{Row: i / m.grid.Cols(), Col: i % m.grid.Cols()})
		}
	}
	return list
}

// writeFloats writes columns of 32-bit floats one after the other, as numpy's
// fromfile reads them.
func writeFloats(t *testing.T, path string, columns ...[]float32) {
	t.Helper()
	var b []byte
	for _, column := range columns {
		for _, v := range column {
			b = binary.LittleEndian.AppendUint32(b, math.Float32bits(v))
		}
	}
	if err := os.WriteFile(path, b, 0o644); err != nil {
		t.Fatal(err)
	}
}

// readFloats reads what numpy's tofile wrote.
func readFloats(t *testing.T, path string) []float32 {
	t.Helper()
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]float32, len(b)/4)
	for i := range out {
		out[i] = math.Float32frombits(binary.LittleEndian.Uint32(b[4*i:]))
	}
	return out
}
