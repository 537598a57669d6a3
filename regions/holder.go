package regions

import (
	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"weekband/grid"
)

// Holder returns the index of the region that holds a point, the first where
// several do; false where none does. Which side of a shared border a point on
// it belongs to is left open.
func (s Set) Holder(at grid.LonLat) (int, bool) {
	for i, r := range s.Regions {
		if r.Bounds.Contains(at) && planar.MultiPolygonContains(r.Shape, orb.Point{at.Lon, at.Lat}) {
			return i, true
		}
	}
	return 0, false
}
