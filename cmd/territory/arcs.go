package main

import (
	"math"
	"slices"

	"weekband/grid"
)

// arc is a stretch of border between the same two owners from one junction to
// the next, or a closed loop, whose last point is its first. Neighbouring
// regions share arcs, so whatever is done to an arc leaves no gap.
type arc struct {
	from, to    spot
	left, right int
	line        []grid.LonLat
}

func (a *arc) closed() bool { return a.from == a.to }

// arcs joins the pieces of a patchwork. Only middles of squares are
// junctions; every other spot is the end of exactly two pieces.
func (w *patchwork) arcs() []arc {
	at := map[spot][]int{}
	for i, p := range w.pieces {
		at[p.from] = append(at[p.from], i)
		at[p.to] = append(at[p.to], i)
	}
	used := make([]bool, len(w.pieces))
	var all []arc
	for _, loops := range []bool{false, true} {
		for i, p := range w.pieces {
			if !used[i] && (loops || p.from.kind == middle) {
				all = append(all, w.follow(i, at, used))
			}
		}
	}
	return all
}

// follow walks from piece i on until a junction or back to its beginning.
// Pieces start at junctions, never end there, so a walk that ends at one
// came along its last piece backwards.
func (w *patchwork) follow(i int, at map[spot][]int, used []bool) arc {
	p := w.pieces[i]
	a := arc{from: p.from, left: p.left, right: p.right, line: []grid.LonLat{w.place(p.from)}}
	here := p.from
	for {
		used[i] = true
		if here = w.pieces[i].otherEnd(here); here.kind == middle || here == a.from {
			a.to = here
			a.line = append(a.line, w.place(here))
			return a
		}
		a.line = append(a.line, w.place(here))
		next := slices.IndexFunc(at[here], func(j int) bool { return !used[j] })
		i = at[here][next]
	}
}

func (p piece) otherEnd(s spot) spot {
	if p.from == s {
		return p.to
	}
	return p.from
}

// smooth replaces every point but the ends by a mean with its neighbours in
// the proportion 1 : 2 : 1, some times over. A loop has no ends.
func (a *arc) smooth(times int) {
	n := len(a.line)
	for range times {
		old := slices.Clone(a.line)
		for i := 1; i < n-1; i++ {
			a.line[i] = mean121(old[i-1], old[i], old[i+1])
		}
		if a.closed() && n > 4 {
			a.line[0] = mean121(old[n-2], old[0], old[1])
			a.line[n-1] = a.line[0]
		}
	}
}

func mean121(a, b, c grid.LonLat) grid.LonLat {
	return grid.LonLat{Lon: (a.Lon + 2*b.Lon + c.Lon) / 4, Lat: (a.Lat + 2*b.Lat + c.Lat) / 4}
}

// thin drops points that lie within tol degrees of the line through the kept
// ones (Douglas and Peucker 1973) and rounds the rest to 4 decimals, 11 m.
func (a *arc) thin(tol float64) {
	for i, p := range a.line {
		a.line[i] = grid.LonLat{Lon: round(p.Lon, 4), Lat: round(p.Lat, 4)}
	}
	n := len(a.line)
	keep := make([]bool, n)
	keep[0], keep[n-1] = true, true
	if a.closed() { // the ends are one point: begin with the point farthest from it
		far := farthest(a.line, 0, n-1)
		keep[far] = true
		thin(a.line, keep, 0, far, tol)
		thin(a.line, keep, far, n-1, tol)
	} else {
		thin(a.line, keep, 0, n-1, tol)
	}
	kept := a.line[:0]
	for i, p := range a.line {
		if keep[i] {
			kept = append(kept, p)
		}
	}
	a.line = slices.Compact(kept)
}

func thin(line []grid.LonLat, keep []bool, from, to int, tol float64) {
	far := farthest(line, from, to)
	if far < 0 || offLine(line[far], line[from], line[to]) <= tol {
		return
	}
	keep[far] = true
	thin(line, keep, from, far, tol)
	thin(line, keep, far, to, tol)
}

// farthest returns the point between two others that lies farthest from the
// straight line through them, or -1 when there is none between.
func farthest(line []grid.LonLat, from, to int) int {
	far, best := -1, -1.0
	for i := from + 1; i < to; i++ {
		if d := offLine(line[i], line[from], line[to]); d > best {
			far, best = i, d
		}
	}
	return far
}

func offLine(p, a, b grid.LonLat) float64 {
	if a == b {
		return hypot((p.Lon-a.Lon)*squeeze, p.Lat-a.Lat)
	}
	return toSegment(planOf(p), planOf(a), planOf(b))
}

func round(v float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Round(v*scale) / scale
}
