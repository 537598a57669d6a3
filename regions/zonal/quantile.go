package zonal

import (
	"cmp"
	"iter"
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
	sample := c.sample(r)
	low, high, total := span(sample)
	if total == 0 {
		return nil, false
	}
	h := newHistogram(sample, low, high, c.cells())
	for _, q := range qs {
		values = append(values, h.quantile(q*total))
	}
	return values, true
}

// Mean returns the mean of a raster over the covered area that has a value,
// and the share that area has of all covered area. ok is false when no
// covered cell has a value. Weeks must not be averaged; temperatures and days
// of the year without a jump may.
func Mean(c Coverage, r *grid.Raster[float32]) (mean, valid float64, ok bool) {
	sum, weight := 0.0, 0.0
	for v, w := range c.sample(r) {
		sum += float64(float64(v) * w)
		weight += w
	}
	if weight == 0 {
		return 0, 0, false
	}
	return sum / weight, weight / c.Area(), true
}

// Nearest returns the covered cell whose value lies nearest to v, the first
// of equally near ones from the north-west; ok is false when no covered cell
// has a value. It panics when the raster lies on another grid.
func Nearest(c Coverage, r *grid.Raster[float32], v float64) (cell grid.Cell, ok bool) {
	c.mustMatch(r.Grid())
	best := math.Inf(1)
	for run := range c.weights() {
		vals, has := r.Row(run.Row)
		for col := run.From; col < run.To; col++ {
			if off := math.Abs(float64(vals[col]) - v); has[col] && off < best {
				cell, best = grid.Cell{Row: run.Row, Col: col}, off
			}
		}
	}
	return cell, !math.IsInf(best, 1)
}

// sample visits the values of the covered cells with their weight in km².
func (c Coverage) sample(r *grid.Raster[float32]) iter.Seq2[float32, float64] {
	c.mustMatch(r.Grid())
	return func(yield func(float32, float64) bool) {
		for run, km2 := range c.weights() {
			vals, has := r.Row(run.Row)
			each := km2 / float64(run.To-run.From)
			for col := run.From; col < run.To; col++ {
				if has[col] && !yield(vals[col], each) {
					return
				}
			}
		}
	}
}

func (c Coverage) mustMatch(g grid.Grid) {
	if !c.Grid.Matches(g) {
		panic("zonal: the raster lies on another grid than the coverage")
	}
}

func span(sample iter.Seq2[float32, float64]) (low, high float32, total float64) {
	low, high = float32(math.Inf(1)), float32(math.Inf(-1))
	for v, w := range sample {
		low, high = min(low, v), max(high, v)
		total += w
	}
	return low, high, total
}

// histogram sorts a sample coarsely, so that a quantile sorts only the values
// of one bin and a large region needs no copy of all its cells. A small one
// has a single bin.
type histogram struct {
	sample    iter.Seq2[float32, float64]
	low, high float32
	weight    []float64
	sorted    int // the bin held in values, -1 for none
	values    []weighted
}

type weighted struct {
	v float32
	w float64
}

// binCells is about how many cells share a bin: sorting so few is quick.
const binCells = 1000

func newHistogram(sample iter.Seq2[float32, float64], low, high float32, cells int) *histogram {
	h := &histogram{sample: sample, low: low, high: high, sorted: -1, weight: make([]float64, min(cells/binCells, 4095)+1)}
	for v, w := range sample {
		h.weight[h.bin(v)] += w
	}
	return h
}

// bin never falls as v rises.
func (h *histogram) bin(v float32) int {
	n := len(h.weight)
	if n == 1 || h.high == h.low {
		return 0
	}
	return min(int(float64(v-h.low)/float64(h.high-h.low)*float64(n)), n-1)
}

// quantile returns the least value at which the summed weight reaches target.
func (h *histogram) quantile(target float64) float64 {
	target -= float64(1e-9 * target) // the sums round; cells are far heavier than that
	last := len(h.weight) - 1
	for h.weight[last] == 0 {
		last--
	}
	bin, before := 0, 0.0
	for bin < last && (before+h.weight[bin] < target || h.weight[bin] == 0) {
		before += h.weight[bin]
		bin++
	}
	h.sort(bin)
	for _, e := range h.values {
		if before += e.w; before >= target {
			return float64(e.v)
		}
	}
	return float64(h.values[len(h.values)-1].v)
}

// sort collects the values of one bin in order.
func (h *histogram) sort(bin int) {
	if h.sorted == bin {
		return
	}
	h.sorted, h.values = bin, h.values[:0]
	for v, w := range h.sample {
		if h.bin(v) == bin {
			h.values = append(h.values, weighted{v, w})
		}
	}
	slices.SortFunc(h.values, func(a, b weighted) int { return cmp.Compare(a.v, b.v) })
}
