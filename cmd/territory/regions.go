package main

import (
	"fmt"
	"slices"

	"weekband/grid"
)

// ring is a closed line, its first point repeated at the end.
type ring []grid.LonLat

// shape is the land of one region: polygons, each an outer ring
// anticlockwise and then its holes clockwise.
type shape [][]ring

const (
	coastSmooth, coastTol   = 2, 0.0022 // the mesh already draws the coast between its nodes
	inlandSmooth, inlandTol = 4, 0.003  // degrees; inland borders start as stairs
)

// shapes returns the land of each of n regions, islands included.
func shapes(l *land, owner []int, n int) []shape {
	arcs := drawBorders(l, owner).arcs()
	for i := range arcs {
		a := &arcs[i]
		times, tol := inlandSmooth, inlandTol
		if a.left == sea || a.right == sea {
			times, tol = coastSmooth, coastTol
		}
		a.smooth(times)
		a.thin(tol)
	}
	all := make([]shape, n)
	for region := range all {
		all[region] = assemble(ringsOf(arcs, region))
	}
	return all
}

// ringsOf chains the arcs that have the region to their left.
func ringsOf(arcs []arc, region int) []ring {
	type way struct {
		to   spot
		line []grid.LonLat
	}
	ways := map[spot]way{}
	var starts []spot
	var rings []ring
	leave := func(from, to spot, line []grid.LonLat) {
		if from == to {
			rings = append(rings, line)
			return
		}
		if _, twice := ways[from]; twice {
			panic("territory: a region touches itself at a junction")
		}
		ways[from] = way{to, line}
		starts = append(starts, from)
	}
	for _, a := range arcs {
		if a.left == region {
			leave(a.from, a.to, slices.Clone(a.line))
		}
		if a.right == region {
			back := slices.Clone(a.line)
			slices.Reverse(back)
			leave(a.to, a.from, back)
		}
	}
	for _, start := range starts {
		w, ok := ways[start]
		if !ok {
			continue // already part of a ring
		}
		r := ring{w.line[0]}
		for here := start; ok; w, ok = ways[here] {
			r = append(r, w.line[1:]...)
			delete(ways, here)
			here = w.to
		}
		rings = append(rings, r)
	}
	return rings
}

// assemble sorts rings into outer ones, largest first, and their holes.
func assemble(rings []ring) shape {
	var s shape
	slices.SortStableFunc(rings, func(a, b ring) int {
		if a.area() > b.area() {
			return -1
		}
		return 1
	})
	for _, r := range rings {
		if r.area() > 0 {
			s = append(s, []ring{r})
			continue
		}
		home := slices.IndexFunc(s, func(polygon []ring) bool { return polygon[0].contains(r[0]) })
		if home < 0 {
			panic(fmt.Sprintf("territory: a hole at %v lies in no polygon", r[0]))
		}
		s[home] = append(s[home], r)
	}
	return s
}

// area is the area in square degrees, negative when r runs clockwise.
func (r ring) area() float64 {
	sum := 0.0
	for i := 1; i < len(r); i++ {
		sum += (r[i-1].Lon-r[0].Lon)*(r[i].Lat-r[0].Lat) - (r[i].Lon-r[0].Lon)*(r[i-1].Lat-r[0].Lat)
	}
	return sum / 2
}

// contains reports whether a ray from p crosses r an odd number of times.
func (r ring) contains(p grid.LonLat) bool {
	in := false
	for i := 1; i < len(r); i++ {
		a, b := r[i-1], r[i]
		if (a.Lat > p.Lat) != (b.Lat > p.Lat) &&
			p.Lon < a.Lon+(p.Lat-a.Lat)/(b.Lat-a.Lat)*(b.Lon-a.Lon) {
			in = !in
		}
	}
	return in
}

// contains reports whether p lies in the shape.
func (s shape) contains(p grid.LonLat) bool {
	in := false
	for _, polygon := range s {
		for _, r := range polygon {
			if r.contains(p) {
				in = !in
			}
		}
	}
	return in
}

// whose returns the shape that contains p, or sea.
func whose(shapes []shape, p grid.LonLat) int {
	return slices.IndexFunc(shapes, func(s shape) bool { return s.contains(p) })
}
