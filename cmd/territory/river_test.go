package main

import (
	"math"
	"slices"
	"testing"

	"weekband/grid"
)

// table returns a field of heights on a small grid near the frame's middle.
func table(t *testing.T, rows ...[]float64) field {
	t.Helper()
	g, err := grid.New(grid.Box{West: -48, South: 36, East: -47, North: 36.5}, len(rows), len(rows[0]))
	if err != nil {
		t.Fatal(err)
	}
	return field{g: g, v: slices.Concat(rows...)}
}

// A hollow (3 m) behind a sill (5 m) must drain over the sill, the whole land
// must reach the sea, and each node must come after the one it drains to.
func TestDrainFillsHollows(t *testing.T) {
	h := table(t,
		[]float64{0, 0, 0, 0, 0, 0},
		[]float64{0, 5, 3, 9, 9, 0},
		[]float64{0, 9, 4, 3, 9, 0},
		[]float64{0, 9, 9, 9, 9, 0},
		[]float64{0, 0, 0, 0, 0, 0})
	d := drain(h, func(i int) bool { return h.v[i] == 0 })
	if got := d.to[2*6+3]; got != 1*6+2 && got != 2*6+2 {
		t.Errorf("the hollow drains to node %d, want its western neighbours", got)
	}
	if d.to[d.to[1*6+1]] != d.to[1*6+1] {
		t.Error("the sill does not drain into the sea")
	}
	rank := make([]int, len(h.v))
	for k, i := range d.order {
		rank[i] = k
	}
	east, south := kmSteps(h.g)
	sum := 0.0
	for i, to := range d.to {
		if i != to && rank[to] >= rank[i] {
			t.Errorf("node %d comes before node %d, to which it drains", i, to)
		}
		if to == i {
			sum += d.area[i]
		}
	}
	if want := 12 * east * south; math.Abs(sum-want) > 1e-9 {
		t.Errorf("%.6f km² reach the sea, want the 12 nodes of land, %.6f km²", sum, want)
	}
}

// Against sorting, the obvious method.
func TestQueueSorts(t *testing.T) {
	var q queue
	var want []entry
	for i := range 500 {
		e := entry{rank: math.Mod(float64(i*i), 37), node: i}
		want = append(want, e)
		q.push(e.rank, e.node)
	}
	slices.SortFunc(want, func(a, b entry) int {
		if a.before(b) {
			return -1
		}
		return 1
	})
	for k, w := range want {
		if got := q.next(); got != w {
			t.Fatalf("entry %d is %v, want %v", k, got, w)
		}
	}
	if q.len() != 0 {
		t.Errorf("%d entries are left", q.len())
	}
}
