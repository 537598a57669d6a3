package regions

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/clip"

	"weekband/grid"
)

// Apart parts the regions for a map that shows a box of them by itself. far
// is all polygons with ground in the box; near is all that reach out of it, so
// that one across its edge is in both, whole. Regions without a polygon on a
// side are not in its set. held is the smallest box around the ground in the
// box, zero when there is none.
func (s Set) Apart(box grid.Box) (far, near Set, held grid.Box) {
	edge := orb.Bound{Min: orb.Point{box.West, box.South}, Max: orb.Point{box.East, box.North}}
	var ground orb.MultiPolygon // in the box
	for _, r := range s.Regions {
		var in, out orb.MultiPolygon
		for _, polygon := range r.Shape {
			bound := polygon.Bound()
			inside := edge.Contains(bound.Min) && edge.Contains(bound.Max)
			if !inside {
				out = append(out, polygon)
			}
			if !edge.Intersects(bound) {
				continue
			}
			if part := clip.Polygon(edge, polygon.Clone()); len(part) > 0 { // clip overwrites what it is given
				in = append(in, polygon)
				ground = append(ground, part)
			}
		}
		far.add(r, in)
		near.add(r, out)
	}
	return far, near, BoundsOf(ground)
}

// add adds a region with another shape, unless that is empty.
func (s *Set) add(r Region, shape orb.MultiPolygon) {
	if len(shape) > 0 {
		r.Shape, r.Bounds = shape, BoundsOf(shape)
		s.Regions = append(s.Regions, r)
	}
}
