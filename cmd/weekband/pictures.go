package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"sync"

	"github.com/paulmach/orb"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/weeks"
	"weekband/regions/bands"
	"weekband/render"
	"weekband/render/site"
)

// Widths of the pictures in layout pixels; maps have two image pixels to
// each, for dense screens and print.
const (
	mapWidth    = 1200
	narrowWidth = 480 // the map as a phone shows it
	mapScale    = 2
	frameWidth  = 900
)

// pictures are the image files of one window.
type pictures struct {
	main, narrow, grey site.Picture
	sheet              site.Picture // small multiples of the weeks
	frames             []site.Frame
	more               []site.Map // further kinds of maps
}

func mapFile(window string) string { return "maps/" + window + ".png" }

func narrowFile(window string) string { return "maps/" + window + "-narrow.png" }

func sheetFile(window string) string { return "maps/" + window + "-sheet.png" }

func greyFile(window string) string { return "maps/" + window + "-grey.png" }

func frameFile(window string, w season.Week) string {
	return fmt.Sprintf("weeks/%s/%02d.png", window, int(w))
}

// studio draws the pictures of an edition.
type studio struct {
	root                  *os.Root
	recipe                *recipe.Recipe
	in                    *inputs
	land                  float64 // area of the ground with normals, km²
	large, narrow, frames *render.Atlas
}

// draw draws every window's map, grey map and weeks.
func draw(ctx context.Context, root *os.Root, r *recipe.Recipe, in *inputs, drawings []drawing) ([]pictures, error) {
	s := &studio{root: root, recipe: r, in: in}
	land, err := territory(in, drawings[0].field)
	if err != nil {
		return nil, err
	}
	for width, atlas := range map[int]**render.Atlas{mapWidth: &s.large, narrowWidth: &s.narrow, frameWidth: &s.frames} {
		if *atlas, err = render.NewAtlas(land, width); err != nil {
			return nil, err
		}
	}
	var out []pictures
	for _, d := range drawings {
		p, err := s.window(ctx, d)
		if err != nil {
			return nil, fmt.Errorf("pictures of %s: %w", d.field.Window.ID, err)
		}
		out = append(out, p)
	}
	return out, nil
}

// territory returns what all maps share: the regions with lines thinned to
// what a picture can show, or, without regions, the outline of the cells.
func territory(in *inputs, f *weeks.Field) (render.Territory, error) {
	var t render.Territory
	for _, p := range in.places {
		t.Places = append(t.Places, render.Place{Name: p.Name, At: p.At, Rank: p.Rank})
	}
	if len(in.areas.Regions) == 0 {
		outline, err := landOf(f)
		t.Regions = []render.Region{{Shape: outline}}
		return t, err
	}
	box := in.areas.Bounds()
	topology := in.areas.Topology()
	topology.Simplify(min(box.East-box.West, box.North-box.South) / (mapWidth * mapScale))
	for i, shape := range topology.Shapes() {
		t.Regions = append(t.Regions, render.Region{Name: in.areas.Regions[i].Name, Shape: shape})
	}
	t.Borders, t.Coast = topology.Inner(), topology.Outer()
	return t, nil
}

// landOf returns the outline of the cells that have normals.
func landOf(f *weeks.Field) (orb.MultiPolygon, error) {
	class := grid.NewRaster[uint8](f.Grid())
	for cell := range f.Reason.All() {
		class.Set(cell, 1)
	}
	set, err := bands.Trace(bands.Field{Day: grid.NewRaster[float32](f.Grid()), Class: class}, nil, bands.Options{})
	if err != nil || len(set.Bands) == 0 {
		return nil, err
	}
	return set.Bands[0].Shape, nil
}

// save writes a page as PNG.
func (s *studio) save(page *render.Page, name string, scale float64) (site.Picture, error) {
	picture := site.Picture{File: name, Width: int(page.Layout.Width), Height: int(page.Layout.Height)}
	return picture, create(s.root, name, func(w io.Writer) error {
		out := bufio.NewWriterSize(w, 1<<16)
		if err := page.PNG(out, scale); err != nil {
			return err
		}
		return out.Flush()
	})
}

// atOnce does jobs at the same time and returns their errors in order.
func atOnce(jobs ...func() error) error {
	errs := make([]error, len(jobs))
	var wg sync.WaitGroup
	for i, job := range jobs {
		wg.Go(func() { errs[i] = job() })
	}
	wg.Wait()
	return errors.Join(errs...)
}

// inTurn does n jobs in their order, as many at a time as there are
// processors, and returns their errors in order and that of ctx.
func inTurn(ctx context.Context, n int, job func(i int) error) error {
	errs := make([]error, n)
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				errs[i] = job(i)
			}
		})
	}
	for i := range n {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wg.Wait()
	return errors.Join(append(errs, ctx.Err())...)
}
