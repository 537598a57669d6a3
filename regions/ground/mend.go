package ground

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
)

// areaTol is by how much, of a shape's area, ground may differ from what the
// areas of its rings add to and still be the same.
const areaTol = 1e-9

// Mend returns the ground of a shape as polygons whose rings are closed, touch
// in points at most and run counter-clockwise outside and clockwise about
// holes. A place is ground when some polygon's outline surrounds it an odd
// number of times and none of that polygon's holes does. Rings of the shape
// must be closed; which way they run does not matter. Units are degrees, ±540
// at most.
//
// A shape without faults is returned as it is. What is mended keeps the
// positions it was drawn with; new ones, where lines cross, are rounded to
// 1e-9°. The error is ErrTangled.
func Mend(shape orb.MultiPolygon) (orb.MultiPolygon, Faults, error) {
	d := newDrawing(shape)
	faults, touching, err := d.contacts()
	if err != nil {
		return nil, faults, err
	}
	placed := d.misplaced()
	if !faults.Any() && !placed.Any() && touching == (contacted{}) {
		return shape, faults, nil
	}
	parts, err := split(d.segments)
	if err != nil {
		return nil, faults, err
	}
	mended := d.polygons(d.borders(parts))
	same := math.Abs(arcs.Area(mended)-arcs.Area(shape)) <= areaTol*arcs.Area(shape)
	switch {
	case faults.Any() || placed.Any():
	case same && !touching.itself: // rings of which one only touches another
		return shape, faults, nil
	case same:
		faults.Touched = true
	case touching.itself: // lines that cross in a corner
		faults.Crossed = true
	default:
		faults.HoleCut, faults.Overlaps = len(shape) == 1, len(shape) > 1
	}
	if !faults.HoleCut {
		faults.Outside, faults.Nested = placed.Outside, placed.Nested
	}
	faults.Overlaps = faults.Overlaps || placed.Overlaps
	return mended, faults, nil
}

// borders returns the directed lines that have ground on their left and none
// on their right.
func (d *drawing) borders(parts []segment) [][2]point {
	index, here := newRows(parts), newPlace(d)
	var lines [][2]point
	for i, s := range parts {
		here.clear()
		index.west(s, i, here.pass)
		west := here.isGround()
		here.pass(s.rings)
		switch east := here.isGround(); {
		case west && !east:
			lines = append(lines, [2]point{s.a, s.b})
		case east && !west:
			lines = append(lines, [2]point{s.b, s.a})
		}
	}
	return lines
}

// polygons joins directed lines to rings and sorts these into polygons.
func (d *drawing) polygons(lines [][2]point) orb.MultiPolygon {
	leaving := map[point][]int{}
	for i, l := range lines {
		leaving[l[0]] = append(leaving[l[0]], i)
	}
	used := make([]bool, len(lines))
	var rings []orb.Ring
	for i := range lines {
		if used[i] {
			continue
		}
		var walk []point
		for at := i; !used[at]; at = leftmost(lines, lines[at], leaving[lines[at][1]]) {
			used[at] = true
			walk = append(walk, lines[at][0])
		}
		for _, loop := range loops(walk) {
			rings = append(rings, d.written(loop))
		}
	}
	shape, _ := arcs.Nest(rings)
	return shape
}

// leftmost returns which of the lines that leave the end of a line turns most
// to the left, so that a walk goes round one piece of ground.
func leftmost(lines [][2]point, in [2]point, leaving []int) int {
	best := leaving[0]
	for _, i := range leaving[1:] {
		p, q := lines[best][1], lines[i][1]
		a, b := turn(in[0], in[1], p), turn(in[0], in[1], q)
		if b > a || a == b && turn(in[1], p, q) > 0 {
			best = i
		}
	}
	return best
}

// loops parts a closed walk at the points it comes by more than once.
func loops(walk []point) [][]point {
	var out [][]point
	var open []point
	at := map[point]int{}
	for _, p := range append(walk, walk[0]) {
		if i, again := at[p]; again {
			out = append(out, slices.Clone(open[i:]))
			for _, q := range open[i:] {
				delete(at, q)
			}
			open = open[:i]
		}
		at[p] = len(open)
		open = append(open, p)
	}
	return out
}

// written returns a closed ring at the positions it was drawn with.
func (d *drawing) written(loop []point) orb.Ring {
	ring := make(orb.Ring, 0, len(loop)+1)
	for _, p := range append(loop, loop[0]) {
		position, known := d.first[p]
		if !known {
			position = orb.Point{float64(p.x) / unit, float64(p.y) / unit}
		}
		ring = append(ring, position)
	}
	return ring
}
