package tracing

import (
	"math"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/spread"
	"weekband/grid/weeks"
	"weekband/regions/bands"
)

// Sizes of pictures, in layout pixels.
const (
	MapScale    = 2   // image pixels to each of a map, for dense screens and print
	FrameWidth  = 900 // one week of a series
	InsetPixels = 800 // an inset, at most
)

// Past is how many cells bands reach past the cells that have normals, so
// that a finer coast line can clip them without gaps.
const Past = 3

// Detail is how many cells of the fields, along each side, one cell of a
// raster takes in that is cut into shapes: on grids finer than what comes of
// them the means of blocks show the same in a part of the time and memory.
type Detail struct {
	Large  int // for the largest pictures
	Frames int // for the frames of a series
	Files  int // for files of bands

	small bool // a cell is no wider than a pixel of a frame
}

// mostTraced is how many cells the bands of files are cut from at most. A file
// of more would hold tens of megabytes, and its bands wind around single cells
// that no map of the whole shows.
const mostTraced = 6_000_000

// DetailOf returns the detail of fields on a grid: of a picture every pixel has
// a cell of its own.
func DetailOf(r *recipe.Recipe, in *inputs.Set) Detail {
	g := in.Normals.Grid()
	box := g.Box()
	if len(in.Areas.Regions) > 0 {
		box = in.Areas.Bounds()
	}
	main, parts, err := inputs.Parted(in.Areas, r.Insets)
	if err == nil && len(parts) > 0 {
		box = main.Bounds()
	}
	large, frames := cellsPerPixel(g, box, float64(r.Size*MapScale)), cellsPerPixel(g, box, FrameWidth)
	for _, p := range parts {
		own := cellsPerPixel(g, p.Held, InsetPixels)
		large, frames = min(large, own), min(frames, own)
	}
	return Detail{
		Large: max(1, int(large)), Frames: max(1, int(frames)), small: frames >= 1,
		Files: int(math.Ceil(math.Sqrt(float64(g.Cells()) / mostTraced))),
	}
}

// cellsPerPixel returns how many cells side by side a picture of a box shows as
// one pixel.
func cellsPerPixel(g grid.Grid, box grid.Box, pixels float64) float64 {
	return (box.East - box.West) / g.StepLon() / pixels
}

// Pooled returns the means of blocks of n × n cells of a raster; itself for 1.
func Pooled(r *grid.Raster[float32], n int) *grid.Raster[float32] { return pooledAs(r, n, nil) }

// pooledAs is pooled of what a function makes of each value; nil stands for the
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

// Margin is f.Margin for blocks of n × n cells: means of differences are
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

// Fair returns by what areas of a raster are to be multiplied: blocks that take
// in the coast count whole, so that the ground with a day would seem larger.
func Fair(r *grid.Raster[float32], d Window) float64 {
	if r.Grid() == d.Field.Grid() {
		return 1
	}
	sum := 0.0
	for _, area := range r.Areas() {
		sum += area
	}
	if sum == 0 {
		return 1
	}
	return d.Areas[crossing.Dated] / sum
}

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

// Lines is how they are drawn on frames: where a cell is no wider than a pixel,
// bends and zigzags of a fifth of one are not seen.
func (d Detail) Lines() bands.Options {
	if d.small {
		return bands.Options{Simplify: 0.2, Smooth: 4, Outline: 1}
	}
	return bands.Options{Outline: 1}
}
