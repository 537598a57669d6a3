package render

import (
	"cmp"
	"image/color"
	"math"
	"slices"
)

// Limits of reduce: how many colours a palette has, which part of the pixels
// makes a colour that of an area, to be kept as it is, and how far a
// channel of a pixel may move, out of 255. On the rim of a line, where the
// other colours stand, 24 is not seen.
const (
	paletteSize = 256
	areaPart    = 0.001
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
// a few like them.
func reduce(paintings []*Painting, size int) reduction {
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
	slices.SortFunc(all, func(a, b tint) int { return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(a.rgb, b.rgb)) })
	kept := 0
	for kept < min(len(all), size/2) && float64(all[kept].count) >= areaPart*float64(pixels) {
		kept++
	}
	clusters := make([]cluster, 0, size)
	for i := range kept {
		clusters = append(clusters, newCluster(all[i:i+1]))
	}
	if kept < len(all) {
		clusters = append(clusters, newCluster(all[kept:]))
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
