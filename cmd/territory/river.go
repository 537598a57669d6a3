package main

import "weekband/grid"

// drainage says where water goes from every node.
type drainage struct {
	order []int     // nodes from the sea upstream: a node comes after the one it drains to
	to    []int     // the next node downstream; a node of the sea drains to itself
	km    []float64 // distance to it
	area  []float64 // land drained through the node, itself included, km²
}

// drain routes water over h. Water runs to the lowest neighbour; hollows are
// filled to their brim first and run out over it (priority flood, Barnes,
// Lehman and Mulla 2014, Computers & Geosciences 62:117). The rim of the mesh
// and the nodes for which isSea holds are where water ends.
func drain(h field, isSea func(int) bool) drainage {
	n := len(h.v)
	d := drainage{order: make([]int, 0, n), to: make([]int, n), km: make([]float64, n), area: make([]float64, n)}
	level := make([]float64, n)
	var q queue
	for i := range n {
		d.to[i] = -1
		if isSea(i) || onRim(h.g, i) {
			d.to[i], level[i] = i, h.v[i]
			q.push(level[i], i)
		}
	}
	for q.len() > 0 {
		i := q.pop()
		d.order = append(d.order, i)
		around(h.g, i, func(j int, km float64) {
			if d.to[j] < 0 {
				d.to[j], d.km[j], level[j] = i, km, max(h.v[j], level[i])
				q.push(level[j], j)
			}
		})
	}
	d.steepen(h.g, level)
	d.gather(h.g)
	return d
}

// steepen turns each node of the land towards its steepest descent where one
// exists; in flats and filled hollows the way of the flood stays.
func (d *drainage) steepen(g grid.Grid, level []float64) {
	for _, i := range d.order {
		if d.to[i] == i {
			continue
		}
		best := 0.0
		around(g, i, func(j int, km float64) {
			if s := (level[i] - level[j]) / km; s > best {
				best, d.to[i], d.km[i] = s, j, km
			}
		})
	}
}

// gather sums the drained areas from the heads of the rivers down.
func (d *drainage) gather(g grid.Grid) {
	east, south := kmSteps(g)
	for k := len(d.order) - 1; k >= 0; k-- {
		i := d.order[k]
		if d.to[i] != i {
			d.area[i] += east * south
			d.area[d.to[i]] += d.area[i]
		}
	}
}

// stem returns the main river from the node where it meets the sea up to its
// source: at every fork the arm with the larger area.
func (d *drainage) stem(g grid.Grid) []int {
	mouth := d.order[0]
	for _, i := range d.order {
		if d.to[i] != i && d.to[d.to[i]] == d.to[i] && d.area[i] > d.area[mouth] || d.to[mouth] == mouth {
			mouth = i
		}
	}
	river := []int{mouth}
	for {
		i, next := river[len(river)-1], -1
		around(g, i, func(j int, _ float64) {
			if d.to[j] == i && (next < 0 || d.area[j] > d.area[next]) {
				next = j
			}
		})
		if next < 0 {
			return river
		}
		river = append(river, next)
	}
}

func onRim(g grid.Grid, i int) bool {
	row, col := i/g.Cols(), i%g.Cols()
	return row == 0 || col == 0 || row == g.Rows()-1 || col == g.Cols()-1
}
