package tracing

import (
	"math"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/regions/bands"
)

// Sizes of pictures, in layout pixels.
const (
	MapScale    = 2   // image pixels to each of a map, for dense screens and print
	FrameWidth  = 900 // one week of a series
	InsetPixels = 800 // an inset, at most
)

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

// DetailOf returns the detail for the grid of the inputs and the pictures that a
// recipe asks for: as coarse as leaves every pixel a cell of its own, insets'
// too.
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

// Lines returns how the shapes of frames are cut: where a cell is no wider than a
// pixel, bends and zigzags of a fifth of one are not seen.
func (d Detail) Lines() bands.Options {
	if d.small {
		return bands.Options{Simplify: 0.2, Smooth: 4, Outline: 1}
	}
	return bands.Options{Outline: 1}
}
