package tracing

import (
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/weeks"
	"weekband/regions/bands"
)

// classed returns the days of a field and the reasons of the cells without, for
// blocks of n × n cells: each is what most of its cells are, a day before a
// reason and ground before water.
func classed(f *weeks.Field, n int) bands.Field {
	onto, ok := f.Grid().Pooled(n)
	if n == 1 || !ok {
		return bands.Field{Day: f.Day, Class: without(f)}
	}
	out := bands.Field{Day: Pooled(f.Day, n), Class: grid.NewRaster[uint8](onto)}
	counts := make([][len(crossing.Reasons)]int, onto.Cols())
	for row := range f.Grid().Rows() {
		reasons, has := f.Reason.Row(row)
		for col, ok := range has {
			if ok {
				counts[col/n][reasons[col]]++
			}
		}
		if (row+1)%n != 0 && row+1 != f.Grid().Rows() {
			continue
		}
		_, dated := out.Day.Row(row / n)
		classes, there := out.Class.Row(row / n)
		for col, count := range counts {
			cells, most := 0, crossing.Dated
			for reason, k := range count {
				if cells += k; k > count[most] {
					most = crossing.Reason(reason)
				}
			}
			dated[col] = most == crossing.Dated && 2*cells >= n*n
			if most != crossing.Dated && 2*cells >= n*n {
				classes[col], there[col] = uint8(most), true
			}
		}
		clear(counts)
	}
	return out
}

// without marks the cells that have normals but no day, by their reason.
func without(f *weeks.Field) *grid.Raster[uint8] {
	class := grid.NewRaster[uint8](f.Grid())
	for cell, reason := range f.Reason.All() {
		if !reason.HasDay() {
			class.Set(cell, uint8(reason))
		}
	}
	return class
}
