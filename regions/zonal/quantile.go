package zonal

import (
	"cmp"
	"math"
	"slices"

	"weekband/grid"
)

// Quantiles returns, for every q in [0, 1], the least value v of the raster
// such that cells with values up to v make up at least the share q of the
// covered area that has a value. Cells weigh by covered area. ok is false,
// and the result nil, when no covered cell has a value.
//
// This is type 1 of Hyndman & Fan 1996 (The American Statistician 50:361),
// with weights: the answer is a value some ground has, and "half of the
// ground is that early" is true of it to the letter. It panics when the
// raster lies on another grid.
func Quantiles(c Coverage, r *grid.Raster[float32], qs ...float64) (values []float64, ok bool) {
	c.mustMatch(r.Grid())
	h := newHistogram(c, r)
	if h.total == 0 {
		return nil, false
	}
	ranks := make([]rank, len(qs))
	for i, q := range qs {
		ranks[i] = h.find(float64(q * h.total))
	}
	h.collect(c, r, ranks)
	for _, at := range ranks {
		values = append(values, h.value(at))
	}
	return values, true
}

// Nearest returns the covered cell whose value lies nearest to v, the first
// of equally near ones from the north-west; ok is false when no covered cell
// has a value. It panics when the raster lies on another grid.
func Nearest(c Coverage, r *grid.Raster[float32], v float64) (cell grid.Cell, ok bool) {
	c.mustMatch(r.Grid())
	best := math.Inf(1)
	for _, run := range c.Runs {
		vals, has := r.Row(int(run.Row))
		for col := run.From; col < run.To; col++ {
			if off := math.Abs(float64(vals[col]) - v); off < best && has[col] {
				cell, best = grid.Cell{Row: int(run.Row), Col: int(col)}, off
			}
		}
	}
	return cell, !math.IsInf(best, 1)
}

func (c Coverage) mustMatch(g grid.Grid) {
	if !c.Grid.Matches(g) {
		panic("zonal: the raster lies on another grid than the coverage")
	}
}

// histogram sorts values coarsely, so that a quantile sorts only those of one
// bin and a large region needs no copy of all its cells. A small one has a
// single bin.
type histogram struct {
	low    float32
	scale  float64 // bins to one unit of the values
	weight []float64
	cells  []int // that a bin holds
	total  float64
	values [][]weighted // by bin, sorted, of those that were collected
}

type weighted struct {
	v float32
	w float64
}

// binCells is about how many cells share a bin, of which there are mostBins at
// most: sorting so few is quick.
const (
	binCells = 128
	mostBins = 4096
)

func newHistogram(c Coverage, r *grid.Raster[float32]) *histogram {
	bins := min(c.cells()/binCells+1, mostBins)
	h := &histogram{weight: make([]float64, bins), cells: make([]int, bins), values: make([][]weighted, bins)}
	high := h.span(c, r)
	if h.total == 0 {
		return h
	}
	if h.low < high {
		h.scale = float64(bins) / float64(high-h.low)
	}
	along(c, r, func(vals []float32, has []bool, each float64) {
		for i, v := range vals {
			if has[i] {
				bin := h.bin(v)
				h.weight[bin] += each
				h.cells[bin]++
			}
		}
	})
	return h
}

// span sets the lowest value and the total weight, and returns the highest
// value.
func (h *histogram) span(c Coverage, r *grid.Raster[float32]) (high float32) {
	low, high := float32(math.Inf(1)), float32(math.Inf(-1))
	along(c, r, func(vals []float32, has []bool, each float64) {
		for i, v := range vals {
			if has[i] {
				low, high = min(low, v), max(high, v)
				h.total += each
			}
		}
	})
	h.low = low
	return high
}

// bin never falls as v rises.
func (h *histogram) bin(v float32) int {
	return min(int(float64(v-h.low)*h.scale), len(h.weight)-1)
}

// rank is where a summed weight is reached: in a bin, before which the weight
// is known.
type rank struct {
	bin            int
	before, target float64
}

// find returns where the summed weight reaches target.
func (h *histogram) find(target float64) rank {
	at := rank{target: target - float64(1e-9*target)} // the sums round; cells are far heavier than that
	last := len(h.weight) - 1
	for h.weight[last] == 0 {
		last--
	}
	for at.bin < last && (at.before+h.weight[at.bin] < at.target || h.weight[at.bin] == 0) {
		at.before += h.weight[at.bin]
		at.bin++
	}
	return at
}

// collect gathers the values of the bins that ranks lie in.
func (h *histogram) collect(c Coverage, r *grid.Raster[float32], ranks []rank) {
	for _, at := range ranks {
		h.values[at.bin] = make([]weighted, 0, h.cells[at.bin])
	}
	along(c, r, func(vals []float32, has []bool, each float64) {
		for i, v := range vals {
			if !has[i] {
				continue
			}
			if bin := h.bin(v); h.values[bin] != nil {
				h.values[bin] = append(h.values[bin], weighted{v, each})
			}
		}
	})
	for _, list := range h.values {
		slices.SortFunc(list, func(a, b weighted) int { return cmp.Compare(a.v, b.v) })
	}
}

// value returns the least value at which the summed weight reaches a rank.
func (h *histogram) value(at rank) float64 {
	list, sum := h.values[at.bin], at.before
	for _, e := range list {
		if sum += e.w; sum >= at.target {
			return float64(e.v)
		}
	}
	return float64(list[len(list)-1].v)
}
