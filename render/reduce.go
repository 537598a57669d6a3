package render

import (
	"cmp"
	"image/color"
	"math"
	"slices"
)

// Limits of reduce: how many colours a palette has; which part of the pixels
// makes a colour that of an area, to be kept as it is, and of how many areas;
// how far a channel of a pixel near an area's colour may move to it, and any
// other, out of 255. On the rim of a line, where the other colours stand, 24 is
// not seen; in the shades of a slope 1 is not.
const (
	paletteSize = 256
	areaPart    = 0.0002
	areasMost   = 176
	hardlyMoved = 1
	mostMoved   = 24
)

// reduction is a palette and which of its colours each colour becomes.
type reduction struct {
	palette color.Palette
	index   map[rgb]uint8
	moved   float64 // how far the farthest channel of any colour moves
}

// reduce finds at most size colours for paintings. Colours frequent over all
// of them stay as they are, rare ones on the rims of lines move to the mean of
// a few like them. Colours to keep stay, however rare.
func reduce(paintings []*Painting, size int, keep map[rgb]bool) reduction {
	counts, pixels := map[rgb]int{}, 0
	for _, p := range paintings {
		pixels += p.size.X * p.size.Y
		for i, c := range p.colors {
			counts[c] += p.counts[i]
		}
	}
	all := make([]tint, 0, len(counts))
	for c, n := range counts {
		all = append(all, tint{rgb: c, count: n, weight: math.Sqrt(float64(n))})
	}
	slices.SortFunc(all, func(a, b tint) int {
		if x, y := keep[a.rgb], keep[b.rgb]; x != y {
			if x {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(a.rgb, b.rgb))
	})
	clusters, rest := areaColors(all, areaPart*float64(pixels), size*areasMost/paletteSize, keep)
	if len(rest) > 0 {
		clusters = append(clusters, newCluster(rest))
	}
	byMass := size * 5 / 8
	for len(clusters) < byMass && split(&clusters, func(c cluster) float64 { return c.spread }) {
	}
	for len(clusters) < size && split(&clusters, func(c cluster) float64 { return c.moved }) {
	}
	return newReduction(clusters)
}

// newReduction makes each cluster its mean.
func newReduction(clusters []cluster) reduction {
	r := reduction{palette: make(color.Palette, len(clusters)), index: map[rgb]uint8{}}
	for i, c := range clusters {
		r.moved = max(r.moved, c.moved)
		r.palette[i] = color.RGBA{R: uint8(c.mean[0] + 0.5), G: uint8(c.mean[1] + 0.5), B: uint8(c.mean[2] + 0.5), A: 255}
		for _, t := range c.tints {
			r.index[t.rgb] = uint8(i)
		}
	}
	return r
}

// areaColors returns the colours that at least so many pixels have, at most
// most of them, those to keep and then the most frequent first, each with those
// that hardly differ from it, and the rest.
func areaColors(all []tint, least float64, most int, keep map[rgb]bool) (areas []cluster, rest []tint) {
	for _, t := range all {
		near := slices.IndexFunc(areas, func(c cluster) bool { return apartBy(c.tints[0].rgb, t.rgb) <= hardlyMoved })
		switch {
		case keep[t.rgb]:
			areas = append(areas, newCluster([]tint{t}))
		case near >= 0:
			areas[near].tints = append(areas[near].tints, t)
		case float64(t.count) >= least && len(areas) < most:
			areas = append(areas, newCluster([]tint{t}))
		default:
			rest = append(rest, t)
		}
	}
	return areas, rest
}

// apartBy returns how far the farthest channel of two colours differs.
func apartBy(a, b rgb) int {
	far := 0
	for k := range 3 {
		d := a.channel(k) - b.channel(k)
		far = max(far, d, -d)
	}
	return far
}

// tint is a colour and how many pixels have it.
type tint struct {
	rgb
	count  int
	weight float64 // in a mean: the root of the count, so that rare ones are heard
}

// cluster is a set of colours that become one, their mean.
type cluster struct {
	tints  []tint
	mean   [3]float64
	spread float64 // sum of squares about the mean, by weight
	moved  float64 // how far the farthest channel is from the mean
	widest int     // the channel with the largest part of it
}

func newCluster(tints []tint) cluster {
	c := cluster{tints: tints}
	n := 0.0
	for _, t := range tints {
		n += t.weight
		for k := range c.mean {
			c.mean[k] += t.weight * float64(t.channel(k))
		}
	}
	var sums [3]float64
	for k := range c.mean {
		c.mean[k] /= n
		for _, t := range tints {
			d := float64(t.channel(k)) - c.mean[k]
			c.moved = max(c.moved, d, -d)
			sums[k] += t.weight * d * d
		}
		c.spread += sums[k]
		if sums[k] > sums[c.widest] {
			c.widest = k
		}
	}
	return c
}

// split parts the worst cluster at its mean. It returns false when none is
// bad at all.
func split(clusters *[]cluster, badness func(cluster) float64) bool {
	at, worst := 0, 0.0
	for i, c := range *clusters {
		if b := badness(c); b > worst {
			at, worst = i, b
		}
	}
	c := (*clusters)[at]
	if len(c.tints) < 2 {
		return false
	}
	slices.SortStableFunc(c.tints, func(a, b tint) int { return cmp.Compare(a.channel(c.widest), b.channel(c.widest)) })
	cut, _ := slices.BinarySearchFunc(c.tints, c.mean[c.widest], func(t tint, mean float64) int {
		return cmp.Compare(float64(t.channel(c.widest)), mean)
	})
	(*clusters)[at] = newCluster(c.tints[:cut])
	*clusters = append(*clusters, newCluster(c.tints[cut:]))
	return true
}
