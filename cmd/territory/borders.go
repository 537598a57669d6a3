package main

import (
	"slices"

	"weekband/grid"
)

// sea is the owner of the open water when borders are drawn.
const sea = -1

// spot is a place in a patchwork: a border crosses the side between two
// nodes, or three and more patches meet in the middle of four nodes.
type spot struct {
	node int
	kind uint8 // east side, south side, or middle of the square to the south-east
}

const (
	eastSide = iota
	southSide
	middle
)

// piece is a short stretch of border from one spot to another with owner
// left of the way and other right of it.
type piece struct {
	from, to    spot
	left, right int
}

// patchwork draws the borders between the owners of nodes: marching squares
// for many patches. Between land and sea a border lies where height is 0,
// between two regions half way.
type patchwork struct {
	height field
	owner  []int // of nodes; sea where there is no land
	pieces []piece
}

func drawBorders(l *land, owner []int) *patchwork {
	dry := slices.Clone(owner)
	for i := range dry {
		if l.isSea(i) {
			dry[i] = sea
		}
	}
	return newPatchwork(l.height, dry)
}

// newPatchwork draws the borders between owners; those of the sea have no
// height above 0.
func newPatchwork(height field, owner []int) *patchwork {
	w := &patchwork{height: height, owner: owner}
	g := height.g
	for row := range g.Rows() - 1 {
		for col := range g.Cols() - 1 {
			w.square(row*g.Cols() + col)
		}
	}
	return w
}

// square draws the pieces between node i and its eastern, southern and
// south-eastern neighbours.
func (w *patchwork) square(i int) {
	cols := w.height.g.Cols()
	// Corners anticlockwise from the north-west; side k lies between corner k
	// and corner k+1.
	corner := [4]int{w.owner[i], w.owner[i+cols], w.owner[i+cols+1], w.owner[i+1]}
	side := [4]spot{{i, southSide}, {i + cols, eastSide}, {i + 1, southSide}, {i, eastSide}}
	var cut []int
	for k := range corner {
		if corner[k] != corner[(k+1)%4] {
			cut = append(cut, k)
		}
	}
	switch len(cut) {
	case 0:
	case 2:
		// On the way from side a to side b corners a+1 … b lie to the right.
		a, b := cut[0], cut[1]
		w.add(side[a], side[b], corner[a], corner[b])
	case 4:
		if w.saddle(corner, side) {
			return
		}
		fallthrough
	default:
		for _, k := range cut {
			w.add(spot{i, middle}, side[k], corner[(k+1)%4], corner[k])
		}
	}
}

// saddle handles squares in which opposite corners belong together: they
// connect through the middle and the two other corners are cut off. It
// reports whether the square is one.
func (w *patchwork) saddle(corner [4]int, side [4]spot) bool {
	k := -1 // a corner that is cut off
	switch {
	case corner[0] == corner[2] && (corner[1] != corner[3] || corner[0] > corner[1]):
		k = 1
	case corner[1] == corner[3]:
		k = 0
	default:
		return false
	}
	for _, k := range []int{k, k + 2} {
		before, after := (k+3)%4, k
		w.add(side[before], side[after], corner[before], corner[k])
	}
	return true
}

func (w *patchwork) add(from, to spot, left, right int) {
	w.pieces = append(w.pieces, piece{from, to, left, right})
}

// place returns where a spot lies.
func (w *patchwork) place(s spot) grid.LonLat {
	g := w.height.g
	p := center(g, s.node)
	switch s.kind {
	case eastSide:
		p.Lon += g.StepLon() * w.part(s.node, s.node+1)
	case southSide:
		p.Lat -= g.StepLat() * w.part(s.node, s.node+g.Cols())
	case middle:
		p.Lon += g.StepLon() / 2
		p.Lat -= g.StepLat() / 2
	}
	return p
}

// part returns which part of the way from node i to node j the border lies.
func (w *patchwork) part(i, j int) float64 {
	if w.owner[i] != sea && w.owner[j] != sea {
		return 0.5
	}
	a, b := w.height.v[i], w.height.v[j]
	return between(a/(a-b), 0.05, 0.95) // not on a node: two borders would touch there
}
