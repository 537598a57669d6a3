package regions

import (
	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/regions/arcs"
)

// Region is a named piece of ground. Edges are straight lines in longitude
// and latitude, as RFC 7946 says.
type Region struct {
	ID, Name string
	Within   string // what it lies in, "" when not known; see Set.Titles
	// Shape is in degrees, longitude first. Rings are closed and do not cross
	// the antimeridian, outer rings run counter-clockwise, holes clockwise.
	Shape  orb.MultiPolygon
	Bounds grid.Box
}

// Set is the regions of one file, in file order, with unique ids.
type Set struct {
	Regions []Region
	// Warnings tell what was mended or left out, one finding to a line, each
	// beginning with the file's name.
	Warnings []string
}

// ByID returns the region with an id; ok is false when there is none.
func (s Set) ByID(id string) (r Region, ok bool) {
	for _, r := range s.Regions {
		if r.ID == id {
			return r, true
		}
	}
	return Region{}, false
}

// Bounds returns the smallest box around all regions, zero when there are
// none.
func (s Set) Bounds() grid.Box {
	var box grid.Box
	for i, r := range s.Regions {
		if i == 0 {
			box = r.Bounds
			continue
		}
		box.West, box.East = min(box.West, r.Bounds.West), max(box.East, r.Bounds.East)
		box.South, box.North = min(box.South, r.Bounds.South), max(box.North, r.Bounds.North)
	}
	return box
}

// shapes returns the shapes of all regions in order.
func (s Set) shapes() []orb.MultiPolygon {
	out := make([]orb.MultiPolygon, len(s.Regions))
	for i, r := range s.Regions {
		out[i] = r.Shape
	}
	return out
}

// Topology returns the borders the regions share, each once. Shape i of the
// topology is region i.
func (s Set) Topology() *arcs.Topology { return arcs.Build(s.shapes()) }

// BoundsOf returns the smallest box around a shape, zero for an empty one.
func BoundsOf(shape orb.MultiPolygon) grid.Box {
	if len(shape) == 0 {
		return grid.Box{}
	}
	b := shape.Bound()
	return grid.Box{West: b.Min[0], South: b.Min[1], East: b.Max[0], North: b.Max[1]}
}
