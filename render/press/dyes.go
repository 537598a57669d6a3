package press

import (
	"cmp"
	"image/color"
	"slices"
)

// dyes are the colours of a palette in the making, each once. They lie in the
// order of their green, so that the nearest is found without a look at all.
type dyes struct {
	list []dye
	from [256]int // the first with at least so much green
}

// dye is a colour of a palette and the sums, by weight, of those that it
// stands for.
type dye struct {
	rgb
	fixed  bool
	weight int
	sums   [3]int
}

// newDyes returns fixed colours and the means of clusters.
func newDyes(fixed []rgb, clusters []cluster) *dyes {
	d := &dyes{}
	for _, c := range fixed {
		d.list = append(d.list, dye{rgb: c, fixed: true})
	}
	for _, c := range clusters {
		d.list = append(d.list, dye{rgb: c.mean})
	}
	d.order()
	return d
}

// order puts the dyes in their order; of those alike it keeps the first.
func (d *dyes) order() {
	slices.SortStableFunc(d.list, func(a, b dye) int {
		return cmp.Or(cmp.Compare(a.channel(1), b.channel(1)), cmp.Compare(a.rgb, b.rgb))
	})
	d.list = slices.CompactFunc(d.list, func(a, b dye) bool { return a.rgb == b.rgb })
	i := 0
	for green := range d.from {
		for i < len(d.list) && d.list[i].channel(1) < green {
			i++
		}
		d.from[green] = i
	}
}

// nearest returns the place of a dye that differs from a colour by the least
// sum of squares; it starts at those as green and goes both ways.
func (d *dyes) nearest(c rgb) int {
	least, at := 1<<30, 0
	red, green, blue := c.channel(0), c.channel(1), c.channel(2)
	look := func(i int) (further bool) {
		w := d.list[i].rgb
		r, g, b := w.channel(0)-red, w.channel(1)-green, w.channel(2)-blue
		if sum := r*r + g*g + b*b; sum < least {
			least, at = sum, i
		}
		return g*g < least
	}
	for i := d.from[green]; i < len(d.list) && look(i); i++ {
	}
	for i := d.from[green] - 1; i >= 0 && look(i); i-- {
	}
	return at
}

// settle moves each dye that is not fixed to the mean of the colours it is
// nearest to, and drops one that is nearest to none.
func (d *dyes) settle(all []tint) {
	for _, t := range all {
		w := &d.list[d.nearest(t.rgb)]
		w.weight += t.weight
		for k := range w.sums {
			w.sums[k] += t.weight * t.channel(k)
		}
	}
	d.list = slices.DeleteFunc(d.list, func(w dye) bool { return w.weight == 0 })
	for i := range d.list {
		if w := &d.list[i]; !w.fixed {
			w.rgb = meanOf(w.sums, w.weight)
		}
	}
	d.order()
}

// meanOf returns the colour of sums over a weight, to the nearest whole.
func meanOf(sums [3]int, weight int) rgb {
	var mean rgb
	for _, s := range sums {
		mean = mean<<8 | rgb((2*s+weight)/(2*weight))
	}
	return mean
}

// reduction makes each colour the nearest dye. The palette holds those that
// some colour became.
func (d *dyes) reduction(all []tint) reduction {
	r := reduction{index: make(map[rgb]uint8, len(all))}
	place := make([]int, len(d.list)) // in the palette, from 1; 0 while not in it
	for _, t := range all {
		i := d.nearest(t.rgb)
		w := d.list[i].rgb
		if place[i] == 0 {
			r.palette = append(r.palette, color.RGBA{R: uint8(w >> 16), G: uint8(w >> 8), B: uint8(w), A: 255})
			place[i] = len(r.palette)
		}
		r.index[t.rgb] = uint8(place[i] - 1)
		r.moved = max(r.moved, apartBy(w, t.rgb))
	}
	return r
}
