package bands

import "github.com/paulmach/orb"

// cells handles row r of cells: the sides between its cells and the contours
// inside each. It is called when the corners below the row are known, so the
// row is the one above the lower corners.
func (t *tracer) cells(r int) {
	west, n := t.sideAcross(r, 0), t.cols
	dated, label := t.above.dated[:n+2], t.above.label[:n+2]
	up, low := t.upper.band[:n+1], t.lower.band[:n+1]
	for c := range n {
		east := int32(-1)
		if !plain(dated[c+2], dated[c+1], up[c+1], low[c+1], label[c+2], label[c+1]) {
			east = t.sideAcross(r, c+1)
		}
		if band := label[c+1]; dated[c+1] && (up[c] != band || up[c+1] != band || low[c] != band || low[c+1] != band) {
			t.cell(r, c, west, east)
		}
		west = east
	}
}

// vertex is a corner of a triangle with its day, band and place.
type vertex struct {
	at   orb.Point
	day  float64
	band int16
}

// cell adds the contours of one cell, whose corners are not all in its band,
// given the edges on its western and eastern sides.
func (t *tracer) cell(r, c int, west, east int32) {
	up, low := &t.upper, &t.lower
	band := t.above.label[c+1]
	centre := vertex{orb.Point{float64(c) + 0.5, -float64(r) - 0.5}, t.above.day[c+1], band}
	// Counter-clockwise from the north-east; side k joins corner k to k+1.
	corners := [4]vertex{
		{corner(r, c+1), up.day[c+1], up.band[c+1]},
		{corner(r, c), up.day[c], up.band[c]},
		{corner(r+1, c), low.day[c], low.band[c]},
		{corner(r+1, c+1), low.day[c+1], low.band[c+1]},
	}
	sides := [4]int32{up.side[c], west, low.side[c], east}
	var spokes [4]int32
	for k, v := range corners {
		spokes[k] = t.cross(v.at, centre.at, v.day, centre.day, v.band, centre.band)
	}
	for k := range corners {
		next := (k + 1) % 4
		t.triangle([3]int16{centre.band, corners[k].band, corners[next].band},
			[3]int32{spokes[k], sides[k], spokes[next]})
	}
}

// triangle adds the contours of a counter-clockwise triangle. edges[i] joins
// vertex i to vertex i+1. Each level between the lowest and the highest
// vertex separates one vertex from the other two; the piece has the higher
// ground on its left.
func (t *tracer) triangle(bands [3]int16, edges [3]int32) {
	for level := min(bands[0], bands[1], bands[2]); level < max(bands[0], bands[1], bands[2]); level++ {
		above := 0
		for _, b := range bands {
			if b > level {
				above++
			}
		}
		for k, b := range bands {
			if (b > level) != (above == 1) { // not the lone vertex
				continue
			}
			from, to := t.at(edges[k], level), t.at(edges[(k+2)%3], level)
			if above == 2 { // the lone vertex is the low one
				from, to = to, from
			}
			t.pieces = append(t.pieces, piece{from: from, to: to, left: level + 1, right: level})
		}
	}
}
