package press

import (
	"cmp"
	"image/color"
	"math"
	"slices"
)

// Limits of reduce: how many colours a palette has; which part of the pixels
// makes a colour that of an area, to be kept as it is, and of how many areas
// where there are so many colours; how far a channel of a pixel near an area's
// colour may move to it, and any other, out of 255. On the rim of a line, where
// the other colours stand, 24 is not seen; in the shades of a slope 1 is not.
// More areas leave a small palette too little for rims, fewer lay steps into
// slopes.
const (
	paletteSize = 256
	areaPart    = 0.0002
	areasMost   = 96
	hardlyMoved = 1
	mostMoved   = 24
)

// reduction is a palette and which of its colours each colour becomes.
type reduction struct {
	palette color.Palette // each colour once, and each some colour's
	index   map[rgb]uint8
	moved   int // how far the farthest channel of any colour moves, of 255
}

// reduce finds at most size colours for paintings, and for each of theirs the
// nearest of these. Colours frequent over all of them stay as they are, rare
// ones on the rims of lines move to one like them. Colours to keep stay,
// however rare, and are fewer than size.
func reduce(paintings []*Painting, size int, keep map[rgb]bool) reduction {
	all, pixels := tintsOf(paintings, keep)
	areas, rest := areaColors(all, areaPart*float64(pixels), size*areasMost/paletteSize)
	means := clustersOf(rest, size*5/8-len(areas), size-len(areas))
	dyes := newDyes(areas, means)
	dyes.settle(all)
	return dyes.reduction(all)
}

// tint is a colour and how many pixels have it.
type tint struct {
	rgb
	count  int
	weight int // in a mean: the root of the count, so that rare ones are heard
	keep   bool
}

// tintsOf returns the colours of paintings, those to keep and then the most
// frequent first, and how many pixels there are.
func tintsOf(paintings []*Painting, keep map[rgb]bool) (all []tint, pixels int) {
	counts := map[rgb]int{}
	for _, p := range paintings {
		pixels += p.size.X * p.size.Y
		for i, c := range p.colors {
			counts[c] += p.counts[i]
		}
	}
	all = make([]tint, 0, len(counts))
	for c, n := range counts {
		all = append(all, tint{rgb: c, count: n, weight: int(math.Round(math.Sqrt(float64(n)))), keep: keep[c]})
	}
	slices.SortFunc(all, func(a, b tint) int {
		if a.keep != b.keep {
			if a.keep {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(b.count, a.count), cmp.Compare(a.rgb, b.rgb))
	})
	return all, pixels
}

// areaColors returns the colours to keep and those that at least so many
// pixels have, the most frequent first, until there are most; and of the
// others those that differ from all of these.
func areaColors(all []tint, least float64, most int) (areas []rgb, rest []tint) {
	for _, t := range all {
		switch {
		case t.keep:
			areas = append(areas, t.rgb)
		case slices.ContainsFunc(areas, func(c rgb) bool { return apartBy(c, t.rgb) <= hardlyMoved }):
		case float64(t.count) >= least && len(areas) < most:
			areas = append(areas, t.rgb)
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
