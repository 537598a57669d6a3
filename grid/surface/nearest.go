package surface

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/kdtree"

	"weekband/grid"
)

// earthKm is the mean radius of the Earth, IUGG R1. Distances are chords of
// this sphere: at 500 km a chord is 0.13 km shorter than the arc.
const earthKm = 6371.0088

// globe is a place on the sphere, in km from its centre.
type globe [3]float64

func onGlobe(p grid.LonLat) globe {
	φ, λ := p.Lat*math.Pi/180, p.Lon*math.Pi/180
	return globe{earthKm * math.Cos(φ) * math.Cos(λ), earthKm * math.Cos(φ) * math.Sin(λ), earthKm * math.Sin(φ)}
}

func (a *globe) distance(b *globe) float64 {
	x, y, z := a[0]-b[0], a[1]-b[1], a[2]-b[2]
	return math.Sqrt(x*x + y*y + z*z)
}

// site is a station's place in the index.
type site struct {
	globe
	i int
}

// Compare, Dims and Distance make site what a tree holds.
func (s site) Compare(c kdtree.Comparable, d kdtree.Dim) float64 {
	return s.globe[d] - c.(site).globe[d]
}
func (s site) Dims() int { return 3 }
func (s site) Distance(c kdtree.Comparable) float64 {
	o := c.(site)
	a, b, d := s.globe[0]-o.globe[0], s.globe[1]-o.globe[1], s.globe[2]-o.globe[2]
	return a*a + b*b + d*d
}

// sites are what the tree is built from.
type sites []site

func (s sites) Index(i int) kdtree.Comparable         { return s[i] }
func (s sites) Len() int                              { return len(s) }
func (s sites) Slice(start, end int) kdtree.Interface { return s[start:end] }

// Pivot sorts along one axis, ties by number, so that the tree is the same on
// every run.
func (s sites) Pivot(d kdtree.Dim) int {
	slices.SortFunc(s, func(a, b site) int {
		return cmp.Or(cmp.Compare(a.globe[d], b.globe[d]), cmp.Compare(a.i, b.i))
	})
	return len(s) / 2
}

// index finds the stations nearest to a place.
type index struct{ tree *kdtree.Tree }

func newIndex(places []globe) index {
	list := make(sites, len(places))
	for i, p := range places {
		list[i] = site{globe: p, i: i}
	}
	return index{tree: kdtree.New(list, false)}
}

// nearest returns the k stations nearest to a place, the nearest first, and
// the distance to the last in km. A station numbered skip is passed over; −1
// skips none.
func (x index) nearest(at globe, k, skip int) (stations []int, reachKm float64) {
	want := k
	if skip >= 0 {
		want++
	}
	keeper := kdtree.NewNKeeper(want)
	x.tree.NearestSet(keeper, site{globe: at, i: -1})
	found := make([]kdtree.ComparableDist, 0, want)
	for _, c := range keeper.Heap {
		if c.Comparable != nil && c.Comparable.(site).i != skip {
			found = append(found, c)
		}
	}
	slices.SortFunc(found, func(a, b kdtree.ComparableDist) int {
		return cmp.Or(cmp.Compare(a.Dist, b.Dist), cmp.Compare(a.Comparable.(site).i, b.Comparable.(site).i))
	})
	found = found[:min(k, len(found))]
	stations = make([]int, len(found))
	for i, c := range found {
		stations[i] = c.Comparable.(site).i
		reachKm = math.Sqrt(c.Dist)
	}
	return stations, reachKm
}
