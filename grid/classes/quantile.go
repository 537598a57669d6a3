package classes

import (
	"cmp"
	"math"
	"slices"

	"weekband/grid"
)

// part is a value and the area of the cells that have it, in km².
type part struct {
	value float32
	km2   float64
}

// Quantiles returns for each share, 0 to 1 and rising, the value of the cell
// up to which that share of the area lies when cells are sorted by value: the
// inverse of the distribution function, without interpolation. It returns nil
// when no cell has a value.
func Quantiles(r *grid.Raster[float32], shares ...float64) []float64 {
	return newDistribution(r).quantiles(shares...)
}

// distribution is how much area has values of each drawer: those that agree in
// their sign, their exponent and seven bits more, of which there are so few that
// a raster is not to be sorted for a few quantiles.
type distribution struct {
	raster *grid.Raster[float32]
	km2    []float64 // by drawer, from the lowest values up
	total  float64
	low    float32
	high   float32
	any    bool
}

const drawers = 1 << 16

// drawer returns which drawer a value belongs to. The bits of a float32 rise
// with its size (IEEE 754), those of a negative one fall.
func drawer(v float32) int {
	bits := math.Float32bits(v + 0) // no -0
	if bits>>31 == 1 {
		return int(^bits >> 16)
	}
	return int(bits>>16 | 1<<15)
}

func newDistribution(r *grid.Raster[float32]) *distribution {
	d := &distribution{raster: r, km2: make([]float64, drawers)}
	for v, area := range r.Areas() {
		d.km2[drawer(v)] += area
		if !d.any {
			d.low, d.high, d.any = v, v, true
		}
		d.low, d.high = min(d.low, v), max(d.high, v)
	}
	for _, area := range d.km2 {
		d.total += area
	}
	return d
}

func (d *distribution) quantiles(shares ...float64) []float64 {
	if !d.any {
		return nil
	}
	out := make([]float64, len(shares))
	opened, parts := -1, []part(nil)
	at, below := 0, 0.0 // a drawer, and the area of those under it
	for i, share := range shares {
		want := float64(share * d.total)
		for at < drawer(d.high) && below+d.km2[at] < want || d.km2[at] == 0 {
			below += d.km2[at]
			at++
		}
		if opened != at {
			opened, parts = at, d.open(at)
		}
		out[i] = float64(reach(parts, want-below))
	}
	return out
}

// open returns the values of a drawer, sorted, each once.
func (d *distribution) open(at int) []part {
	km2 := map[float32]float64{}
	for v, area := range d.raster.Areas() {
		if drawer(v) == at {
			km2[v] += area
		}
	}
	parts := make([]part, 0, len(km2))
	for v, area := range km2 {
		parts = append(parts, part{value: v, km2: area})
	}
	slices.SortFunc(parts, func(a, b part) int { return cmp.Compare(a.value, b.value) })
	return parts
}

// reach returns the first value up to which an area lies, or the last.
func reach(parts []part, km2 float64) float32 {
	sum := 0.0
	for _, p := range parts {
		if sum += p.km2; sum >= km2 {
			return p.value
		}
	}
	return parts[len(parts)-1].value
}
