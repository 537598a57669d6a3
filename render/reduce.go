package render

import (
	"cmp"
	"image"
	"image/color"
	"math"
	"slices"
)

// Limits of paletted: how many colours a palette has, which part of the
// pixels makes a colour that of an area, to be kept as it is, and how far a
// channel of a pixel may move, out of 255. On the rim of a line, where the
// other colours stand, 24 is not seen.
const (
	paletteSize = 256
	areaPart    = 0.001
	mostMoved   = 24
)

// paletted returns an opaque image with at most 256 colours. Frequent colours
// and those to keep stay as they are, rare ones on the rims of lines move to the mean of a few
// like them. ok is false when one would move by more than mostMoved.
func paletted(im *image.RGBA, keep map[rgb]bool) (out *image.Paletted, ok bool) {
	counts := countColors(im)
	all := make([]tint, 0, len(counts))
	for c, n := range counts {
		all = append(all, tint{rgb: c, count: n, weight: math.Sqrt(float64(n))})
	}
	often := int(math.Ceil(areaPart * float64(len(im.Pix)/4)))
	stays := func(t tint) bool { return keep[t.rgb] || t.count >= often }
	slices.SortFunc(all, func(a, b tint) int {
		if x, y := stays(a), stays(b); x != y {
			if x {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(a.rgb, b.rgb))
	})
	kept := 0
	for kept < min(len(all), paletteSize/2) && stays(all[kept]) {
		kept++
	}
	clusters := make([]cluster, 0, paletteSize)
	for i := range kept {
		clusters = append(clusters, newCluster(all[i:i+1]))
	}
	if kept < len(all) {
		clusters = append(clusters, newCluster(all[kept:]))
	}
	byMass := paletteSize * 5 / 8
	for len(clusters) < byMass && split(&clusters, func(c cluster) float64 { return c.spread }) {
	}
	for len(clusters) < paletteSize && split(&clusters, func(c cluster) float64 { return c.moved }) {
	}
	return recolor(im, clusters)
}

// rgb is an opaque colour, 0xRRGGBB.
type rgb uint32

// channel returns red, green or blue.
func (c rgb) channel(k int) int { return int(c >> (16 - 8*k) & 255) }

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

// countColors returns how many pixels have each colour.
func countColors(im *image.RGBA) map[rgb]int {
	counts := map[rgb]int{}
	eachRun(im, func(c rgb, from, to int) { counts[c] += (to - from) / 4 })
	return counts
}

// eachRun calls visit for each stretch of equal pixels, given by its offsets
// in Pix. Rows follow each other without gaps.
func eachRun(im *image.RGBA, visit func(c rgb, from, to int)) {
	at := func(i int) rgb { return rgb(im.Pix[i])<<16 | rgb(im.Pix[i+1])<<8 | rgb(im.Pix[i+2]) }
	for i := 0; i < len(im.Pix); {
		c, from := at(i), i
		for i += 4; i < len(im.Pix) && at(i) == c; i += 4 {
		}
		visit(c, from, i)
	}
}

// recolor returns the image in the colours of the clusters.
func recolor(im *image.RGBA, clusters []cluster) (out *image.Paletted, ok bool) {
	palette := make(color.Palette, len(clusters))
	index := map[rgb]uint8{}
	for i, c := range clusters {
		if c.moved > mostMoved {
			return nil, false
		}
		palette[i] = color.RGBA{R: uint8(c.mean[0] + 0.5), G: uint8(c.mean[1] + 0.5), B: uint8(c.mean[2] + 0.5), A: 255}
		for _, t := range c.tints {
			index[t.rgb] = uint8(i)
		}
	}
	out = image.NewPaletted(im.Rect, palette)
	eachRun(im, func(c rgb, from, to int) {
		k := index[c]
		row := out.Pix[from/4 : to/4]
		for i := range row {
			row[i] = k
		}
	})
	return out, true
}
