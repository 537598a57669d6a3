package classes

import (
	"cmp"
	"slices"

	"weekband/grid"
)

// part is the value of a cell and its area in km².
type part struct {
	value float32
	km2   float64
}

// Quantiles returns for each share, 0 to 1 and rising, the value of the cell
// up to which that share of the area lies when cells are sorted by value: the
// inverse of the distribution function, without interpolation. It returns nil
// when no cell has a value.
func Quantiles(r *grid.Raster[float32], shares ...float64) []float64 {
	return quantiles(sorted(r), shares...)
}

func sorted(r *grid.Raster[float32]) []part {
	parts := make([]part, 0, r.Count())
	for v, area := range r.Areas() {
		parts = append(parts, part{value: v, km2: area})
	}
	slices.SortFunc(parts, func(a, b part) int {
		return cmp.Or(cmp.Compare(a.value, b.value), cmp.Compare(a.km2, b.km2))
	})
	return parts
}

func quantiles(parts []part, shares ...float64) []float64 {
	if len(parts) == 0 {
		return nil
	}
	total := 0.0
	for _, p := range parts {
		total += p.km2
	}
	out := make([]float64, len(shares))
	at, sum := 0, parts[0].km2
	for i, share := range shares {
		for at < len(parts)-1 && sum < share*total {
			at++
			sum += parts[at].km2
		}
		out[i] = float64(parts[at].value)
	}
	return out
}
