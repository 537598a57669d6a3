package render

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
	"weekband/render/canvas"
	"weekband/render/lettering"
)

// nearIndex finds the polygons around a region.
type nearIndex struct {
	plots []plot
	of    [][]int // the plots of each region, the largest first
	names []nearName
}

// plot is one polygon of a region.
type plot struct {
	region  int
	polygon orb.Polygon
	bound   orb.Bound // degrees
	area    float64   // square degrees, each of longitude shortened
}

// nearName is a name as near views write it, with its width at size 1.
type nearName struct {
	one, two []string
	wide     [2]float64 // of one and of two lines
}

func newNearIndex(regions []Region) nearIndex {
	x := nearIndex{of: make([][]int, len(regions)), names: make([]nearName, len(regions))}
	for i, r := range regions {
		for _, polygon := range r.Shape {
			if len(polygon) == 0 {
				continue
			}
			p := plot{region: i, polygon: polygon, bound: polygon.Bound()}
			p.area = math.Abs(arcs.SignedArea(polygon[0])) * math.Cos(p.bound.Center()[1]*math.Pi/180)
			x.of[i] = append(x.of[i], len(x.plots))
			x.plots = append(x.plots, p)
		}
		slices.SortStableFunc(x.of[i], func(a, b int) int { return cmp.Compare(x.plots[b].area, x.plots[a].area) })
		x.names[i] = newNearName(r.Name)
	}
	return x
}

// newNearName measures a name.
func newNearName(name string) nearName {
	font := canvas.Font{Face: canvas.Regular, Size: 1}
	n := nearName{one: []string{name}, two: lettering.Halves(name, font)}
	n.wide[0] = font.Width(name)
	for _, half := range n.two {
		n.wide[1] = max(n.wide[1], font.Width(half))
	}
	return n
}

// mainly is the share of a region's area that a near view shows at least;
// small islands far off would leave the rest too small.
const mainly = 0.95

// main returns the largest polygons of a region, together mainly of it.
func (x *nearIndex) main(region int) orb.MultiPolygon {
	var out orb.MultiPolygon
	all, sum := 0.0, 0.0
	for _, i := range x.of[region] {
		all += x.plots[i].area
	}
	for _, i := range x.of[region] {
		if len(out) > 0 && sum >= mainly*all {
			break
		}
		out = append(out, x.plots[i].polygon)
		sum += x.plots[i].area
	}
	return out
}

// around returns the polygons of each region that may show in a box of
// degrees, which may reach over the antimeridian, in the order of regions.
func (x *nearIndex) around(box orb.Bound) (regions []int, shapes []orb.MultiPolygon) {
	for _, p := range x.plots {
		if p.bound.Max[1] < box.Min[1] || p.bound.Min[1] > box.Max[1] || !overlapsAround(p.bound, box) {
			continue
		}
		if n := len(regions); n == 0 || regions[n-1] != p.region {
			regions, shapes = append(regions, p.region), append(shapes, nil)
		}
		last := len(shapes) - 1
		shapes[last] = append(shapes[last], p.polygon)
	}
	return regions, shapes
}

// overlapsAround reports whether the longitudes of two bounds overlap, whole
// turns apart.
func overlapsAround(a, b orb.Bound) bool {
	for _, turn := range [...]float64{0, -360, 360} {
		if a.Min[0]+turn <= b.Max[0] && a.Max[0]+turn >= b.Min[0] {
			return true
		}
	}
	return false
}
