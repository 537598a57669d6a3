package main

import (
	"fmt"
	"math"
	"testing"

	"weekband/grid"
)

// Three regions meet inland and each at the coast; a lone island belongs to
// the second. Whatever smoothing does, the regions must fill the coastline
// exactly, without gap or overlap, and each node lie in its owner's shape.
func TestShapesPartitionTheLand(t *testing.T) {
	h, owner := patchworkOfThree(t)
	l := &land{height: h}
	got := shapes(l, owner, 3)
	if len(got[1]) != 2 || len(got[0]) != 1 || len(got[2]) != 1 {
		t.Fatalf("polygons %d, %d, %d; want 1, 2 (an island), 1", len(got[0]), len(got[1]), len(got[2]))
	}
	inland, coast := edgesOf(got)
	if inland == 0 || coast == 0 {
		t.Errorf("%d shared edges and %d of the coast; want some of both", inland, coast)
	}
	one := make([]int, len(owner)) // the same land as a single region
	whole := shapes(l, one, 1)[0]
	if a, b := areaOf(got...), areaOf(whole); math.Abs(a-b) > 0.01*b {
		t.Errorf("the regions' area %.6f differs from the land's %.6f", a, b)
	}
	for i := range owner {
		p := center(h.g, i)
		in := whose(got, p)
		if clear := math.Abs(h.v[i]) > 60; clear && l.isSea(i) != (in == sea) {
			t.Errorf("node %d at %v is in region %d, height %.0f", i, p, in, h.v[i])
		}
	}
}

func patchworkOfThree(t *testing.T) (field, []int) {
	g, err := grid.New(grid.Box{West: -50, South: 34, East: -49, North: 34.8}, 40, 50)
	if err != nil {
		t.Fatal(err)
	}
	h, owner := newField(g), make([]int, g.Cells())
	for i := range h.v {
		row, col := float64(i/50), float64(i%50)
		main := 14 - hypot(row-20, (col-20)*0.9)
		isle := 4 - hypot(row-8.3, col-43.2)
		h.v[i] = 30 * max(main, isle)
		switch {
		case isle > main || row < 17+col/9:
			owner[i] = 1
		case col < 22:
			owner[i] = 2
		}
	}
	return h, owner
}

// edgesOf counts the edges two shapes share, once each way, and those of one
// shape only.
func edgesOf(shapes []shape) (shared, single int) {
	ways := map[[2]grid.LonLat]int{}
	for _, s := range shapes {
		for _, polygon := range s {
			for _, r := range polygon {
				for i := 1; i < len(r); i++ {
					ways[[2]grid.LonLat{r[i-1], r[i]}]++
				}
			}
		}
	}
	for e, n := range ways {
		switch back := ways[[2]grid.LonLat{e[1], e[0]}]; {
		case n > 1 || back > 1:
			return -1, -1
		case back == 1:
			shared++
		default:
			single++
		}
	}
	return shared / 2, single
}

func areaOf(shapes ...shape) float64 {
	sum := 0.0
	for _, s := range shapes {
		for _, polygon := range s {
			for _, r := range polygon {
				sum += r.area()
			}
		}
	}
	return sum
}

func Example() {
	triangle := ring{{Lon: -48, Lat: 36}, {Lon: -46, Lat: 36}, {Lon: -46, Lat: 37}, {Lon: -48, Lat: 36}}
	fmt.Println(triangle.area(), triangle.contains(grid.LonLat{Lon: -46.5, Lat: 36.5}))
	// Output: 1 true
}
