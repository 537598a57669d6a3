package tracing

import (
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/spread"
	"weekband/grid/weeks"
	"weekband/regions/bands"
)

// Past is how many cells bands reach past the cells that have normals, so
// that a finer coast line can clip them without gaps.
const Past = 3

// Pooled returns the means of blocks of n × n cells of a raster, each over the
// cells that have a value; the raster itself for 1, nil for nil.
func Pooled(r *grid.Raster[float32], n int) *grid.Raster[float32] { return pooledAs(r, n, nil) }

// pooledAs is Pooled of what a function makes of each value; nil stands for the
// value itself.
func pooledAs(r *grid.Raster[float32], n int, as func(float32) float32) *grid.Raster[float32] {
	if r == nil || n == 1 && as == nil {
		return r
	}
	made := make([]float32, r.Grid().Cols())
	return pool(r.Grid(), n, func(row int) ([]float32, []bool) {
		vals, has := r.Row(row)
		if as == nil {
			return vals, has
		}
		for col, ok := range has {
			if ok {
				made[col] = as(vals[col])
			}
		}
		return made, has
	})
}

// pool is grid.Pool of a grid's rows, of single cells where blocks of n would
// reach past the end of the world.
func pool(g grid.Grid, n int, row func(row int) ([]float32, []bool)) *grid.Raster[float32] {
	onto, ok := g.Pooled(n)
	if !ok {
		onto, n = g, 1
	}
	return grid.Pool(onto, n, g.Rows(), row)
}

// earlyLate is f.EarlyLate for blocks of n × n cells.
func earlyLate(f *weeks.Field, n int) (early, late *grid.Raster[float32]) {
	if n == 1 {
		return f.EarlyLate()
	}
	years := func(wantLate bool) *grid.Raster[float32] {
		days := make([]float32, f.Grid().Cols())
		return pool(f.Grid(), n, func(row int) ([]float32, []bool) {
			_, has := f.Day.Row(row)
			for col, ok := range has {
				if ok {
					early, late, _ := f.Years(grid.Cell{Row: row, Col: col})
					if days[col] = float32(early); wantLate {
						days[col] = float32(late)
					}
				}
			}
			return days, has
		})
	}
	return years(false), years(true)
}

// Margin is f.Margin of a reason for blocks of n × n cells: means of differences are
// differences of means.
func Margin(f *weeks.Field, reason crossing.Reason, n int) *grid.Raster[float32] {
	if n == 1 {
		return f.Margin(reason)
	}
	slope := Pooled(f.Slope, n)
	means := weeks.Field{Window: f.Window, Day: slope, Slope: slope, Common: &weeks.Common{Coldest: Pooled(f.Coldest, n), Warmest: Pooled(f.Warmest, n)}}
	return means.Margin(reason)
}

// Staged returns the field of blocks of n × n cells that tells their stages, and
// the same as it reaches past the cells that have normals.
func Staged(f *weeks.Field, n int) (own, wide *weeks.Field) {
	own = f
	if n > 1 {
		own = &weeks.Field{Window: f.Window, Cut: f.Cut, Day: Pooled(f.Day, n), OntimeFrom: Pooled(f.OntimeFrom, n), CatchupTo: Pooled(f.CatchupTo, n)}
	}
	grown := func(r *grid.Raster[float32]) *grid.Raster[float32] { return bands.Field{Day: r}.Extend(Past).Day }
	return own, &weeks.Field{Window: f.Window, Cut: f.Cut, Day: grown(own.Day), OntimeFrom: grown(own.OntimeFrom), CatchupTo: grown(own.CatchupTo)}
}

// ExpectedErrors is f.ExpectedErrors for blocks of n × n cells.
func ExpectedErrors(f *weeks.Field, n int) *grid.Raster[float32] {
	if n == 1 {
		return f.ExpectedErrors()
	}
	return pooledAs(f.Error, n, func(stdErr float32) float32 { return float32(spread.Expected(float64(stdErr))) })
}

// Fair returns by what areas of a raster are to be multiplied that is the window's
// field or blocks of its cells: blocks that take in the coast count whole, so that
// the ground with a day would seem larger.
func Fair(r *grid.Raster[float32], w Window) float64 {
	if r.Grid() == w.Field.Grid() {
		return 1
	}
	sum := 0.0
	for _, area := range r.Areas() {
		sum += area
	}
	if sum == 0 {
		return 1
	}
	return w.Areas[crossing.Dated] / sum
}
