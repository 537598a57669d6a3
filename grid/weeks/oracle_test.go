package weeks_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/oracle"
	"weekband/grid/source"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/grid/worth"
)

// table is normals held in memory: vals[m][i] is month m of cell i.
type table struct {
	grid grid.Grid
	vals [][]float32
	has  []bool
}

func (n table) Grid() grid.Grid { return n.grid }
func (n table) Layers() int     { return len(n.vals) }
func (n table) Read(first, rows int, dst *source.Rows) error {
	lo, hi := first*n.grid.Cols(), (first+rows)*n.grid.Cols()
	dst.Vals = dst.Vals[:0]
	for _, layer := range n.vals {
		dst.Vals = append(dst.Vals, layer[lo:hi])
	}
	dst.Has = n.has[lo:hi]
	return nil
}

// windows are the spring and the late-summer window.
func windows() []status.Window {
	const f55, f70, f50, f75 = 115.0 / 9, 190.0 / 9, 10, 215.0 / 9
	window := func(id string, d crossing.Direction, level, starts float64) status.Window {
		return status.Window{
			ID: id, Title: id, Treatment: worth.Usual(worth.Medium), AheadDays: status.DefaultAheadDays, WorthFloor: status.DefaultWorthFloor,
			Trigger: crossing.Trigger{Level: celsius(level), Direction: d}, Starts: crossing.Trigger{Level: celsius(starts), Direction: d},
		}
	}
	return []status.Window{window("summer-annuals", crossing.Warming, f55, f50), window("winter-annuals", crossing.Cooling, f70, f75)}
}

// randomYears returns normals of n cells from arctic to tropical.
func randomYears(t testing.TB, rows, cols int) table {
	t.Helper()
	g, err := grid.New(grid.Box{West: -91, South: 37, East: -84, North: 39.5}, rows, cols)
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(55, 70))
	n := table{grid: g, vals: make([][]float32, 12), has: make([]bool, g.Cells())}
	for m := range n.vals {
		n.vals[m] = make([]float32, g.Cells())
	}
	for i := range n.has {
		n.has[i] = true
		mean, a, late := 2+20*rng.Float64(), 4+12*rng.Float64(), 15+20*rng.Float64()
		for m := range n.vals {
			mid := 30.4*float64(m) + 15
			n.vals[m][i] = float32(mean - a*math.Cos(2*math.Pi*(mid-late)/365) + rng.NormFloat64()*0.5)
		}
	}
	return n
}

// An independent computation in numpy agrees within a tenth of a day on every
// one of 60 random years.
func TestCrossingAgainstNumpy(t *testing.T) {
	n := randomYears(t, 6, 10)
	fields, err := weeks.Compute(t.Context(), n, windows(), weeks.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var in strings.Builder
	for i := range n.has {
		for m := range n.vals {
			fmt.Fprintf(&in, "%v ", n.vals[m][i])
		}
		in.WriteString("\n")
	}
	out := strings.Fields(string(oracle.Numpy(t, []byte(in.String()), "testdata/crossing.py")))
	if len(out) != 2*len(n.has) {
		t.Fatalf("numpy answered %d words, want %d", len(out), 2*len(n.has))
	}
	dated := 0
	for i := range n.has {
		cell := grid.Cell{Row: i / 10, Col: i % 10}
		for k, f := range fields {
			want := out[2*i+k]
			reason, _ := f.Reason.At(cell)
			day, ok := f.Day.At(cell)
			if !ok {
				_, none := strconv.ParseFloat(want, 64)
				if tooSlow := reason == crossing.Flat; tooSlow == (none != nil) || !tooSlow && reason.String() != want {
					t.Errorf("cell %v, %s: %v, numpy says %s", cell, f.Window.ID, reason, want)
				}
				continue
			}
			dated++
			theirs, err := strconv.ParseFloat(want, 64)
			ours := math.Mod(float64(day)-1, 365) + 1
			if gap := math.Abs(ours - theirs); err != nil || min(gap, 365-gap) > 0.1 {
				t.Errorf("cell %v, %s: day %.3f, numpy says %s", cell, f.Window.ID, ours, want)
			}
		}
	}
	if dated < 40 {
		t.Errorf("only %d dated crossings were compared", dated)
	}
}
