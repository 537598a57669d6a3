package surface

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/kdtree"

	"weekband/grid"
)

// site is a station's place in the index.
type site struct {
	grid.Globe
	i int
}

// Compare, Dims and Distance make site what a tree holds.
func (s site) Compare(c kdtree.Comparable, d kdtree.Dim) float64 {
	return s.Globe[d] - c.(site).Globe[d]
}
func (s site) Dims() int { return 3 }
func (s site) Distance(c kdtree.Comparable) float64 {
	o := c.(site)
	a, b, d := s.Globe[0]-o.Globe[0], s.Globe[1]-o.Globe[1], s.Globe[2]-o.Globe[2]
	return float64(a*a) + float64(b*b) + float64(d*d)
}

// leaves are what the tree is built from.
type leaves []site

func (s leaves) Index(i int) kdtree.Comparable         { return s[i] }
func (s leaves) Len() int                              { return len(s) }
func (s leaves) Slice(start, end int) kdtree.Interface { return s[start:end] }

// Pivot sorts along one axis, ties by number, so that the tree is the same on
// every run.
func (s leaves) Pivot(d kdtree.Dim) int {
	slices.SortFunc(s, func(a, b site) int {
		return cmp.Or(cmp.Compare(a.Globe[d], b.Globe[d]), cmp.Compare(a.i, b.i))
	})
	return len(s) / 2
}

// index finds the stations nearest to a place.
type index struct{ tree *kdtree.Tree }

func newIndex(places []grid.Globe) index {
	list := make(leaves, len(places))
	for i, p := range places {
		list[i] = site{Globe: p, i: i}
	}
	return index{tree: kdtree.New(list, false)}
}

// nearest returns the k stations nearest to a place, the nearest first, and
// the distance to the last in km. A station numbered skip is passed over; −1
// skips none.
func (x index) nearest(at grid.Globe, k, skip int) (stations []int, reachKm float64) {
	want := k
	if skip >= 0 {
		want++
	}
	keeper := kdtree.NewNKeeper(want)
	x.tree.NearestSet(keeper, site{Globe: at, i: -1})
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
