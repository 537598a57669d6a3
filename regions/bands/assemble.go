package bands

import (
	"math"
	"slices"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/regions/arcs"
)

// lines returns the positions of every arc in cells, thinned once, the outline by
// a tolerance of its own: with 0 only vertices on straight stretches go.
func (t *tracer) lines(list []arc, tolCells, outlineTol float64) []orb.LineString {
	lines := make([]orb.LineString, len(list))
	for i, a := range list {
		lines[i] = t.line(a, tolCells >= 0 && a.bounds())
	}
	arcs.Thin(lines, func(i int) float64 {
		if tolCells > 0 && list[i].bounds() {
			return outlineTol
		}
		return tolCells
	})
	return lines
}

// line returns the positions of an arc, of straight stretches only the ends
// where wanted: most of an outline is such, and thinning would take as long over
// each vertex of them as over a bend.
func (t *tracer) line(a arc, straight bool) orb.LineString {
	out := make(orb.LineString, 0, len(a.nodes))
	for _, n := range a.nodes {
		p := t.nodes[n].at
		if last := len(out) - 1; straight && last > 0 && aligned(out[last-1], out[last], p) {
			out[last] = p
			continue
		}
		out = append(out, p)
	}
	return slices.Clip(out)
}

// aligned reports whether q lies on the way from p to r along a row or column of
// corners.
func aligned(p, q, r orb.Point) bool {
	return p[0] == q[0] && q[0] == r[0] && (p[1] < q[1]) == (q[1] < r[1]) || p[1] == q[1] && q[1] == r[1] && (p[0] < q[0]) == (q[0] < r[0])
}

// assemble makes the polygons of every label from the arcs around it.
func (t *tracer) assemble(list []arc, lines []orb.LineString) Set {
	last := int16(len(t.breaks)) + math.MaxUint8
	byLabel := make([][]half, last+1)
	for i, a := range list {
		if a.left != outside {
			byLabel[a.left] = append(byLabel[a.left], half{line: lines[i], from: a.first(), to: a.last()})
		}
		if a.right != outside {
			byLabel[a.right] = append(byLabel[a.right], half{line: lines[i], back: true, from: a.last(), to: a.first()})
		}
	}
	var set Set
	for label, halves := range byLabel {
		if len(halves) == 0 {
			continue
		}
		shape, stray := arcs.Nest(ringsOf(halves))
		if stray > 0 {
			panic("bands: a hole without a polygon around it")
		}
		t.toDegrees(shape)
		band := Band{Index: label, Shape: shape}
		if label > len(t.breaks) {
			band = Band{Class: uint8(label - len(t.breaks)), Shape: shape}
		}
		set.Bands = append(set.Bands, band)
	}
	return set
}

// toDegrees moves a shape from cells to degrees, in place. Corners of cells
// come out exactly where the grid has them.
func (t *tracer) toDegrees(shape orb.MultiPolygon) {
	g := t.field.Day.Grid()
	for _, polygon := range shape {
		for _, ring := range polygon {
			for i, p := range ring {
				ring[i] = degrees(g, p)
			}
		}
	}
}

func degrees(g grid.Grid, p orb.Point) orb.Point {
	box := g.Box()
	out := orb.Point{box.West + float64(p[0]*g.StepLon()), box.North + float64(p[1]*g.StepLat())}
	if p[0] == float64(g.Cols()) {
		out[0] = box.East
	}
	if p[1] == -float64(g.Rows()) {
		out[1] = box.South
	}
	return out
}
