package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"
	"sync"

	"github.com/paulmach/orb"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/regions/bands"
	"weekband/render"
	"weekband/render/caution"
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

// beyond is how many cells bands reach past the cells that have normals, so
// that a finer coast line can clip them without gaps.
const beyond = 3

// pictures are the image files of one window.
type pictures struct {
	main, narrow, grey site.Picture
	sheet              site.Picture // small multiples of the weeks
	frames             []site.Frame
}

func mapFile(window string) string    { return "maps/" + window + ".png" }
func narrowFile(window string) string { return "maps/" + window + "-narrow.png" }
func sheetFile(window string) string  { return "maps/" + window + "-sheet.png" }
func greyFile(window string) string   { return "maps/" + window + "-grey.png" }

func frameFile(window string, w season.Week) string {
	return fmt.Sprintf("weeks/%s/%02d.png", window, int(w))
}

// studio draws the pictures of an edition.
type studio struct {
	root                  *os.Root
	recipe                *recipe.Recipe
	land                  float64 // area of the ground with normals, km²
	large, narrow, frames *render.Atlas
}

// draw draws every window's map, grey map and weeks.
func draw(ctx context.Context, root *os.Root, r *recipe.Recipe, in *inputs, drawings []drawing) ([]pictures, error) {
	s := &studio{root: root, recipe: r}
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

// window draws the pictures of one window.
func (s *studio) window(ctx context.Context, d drawing) (pictures, error) {
	f := d.field
	s.land = 0
	for _, km2 := range f.AreaOf() {
		s.land += km2
	}
	parts, err := ground(f.Day, weeks.Breaks(d.weeks))
	if err != nil {
		return pictures{}, err
	}
	without, err := s.undated(f)
	if err != nil {
		return pictures{}, err
	}
	m, err := s.bandMap(d, parts, without)
	if err != nil {
		return pictures{}, err
	}
	var out pictures
	if out.main, err = s.bandPicture(s.large, m, mapFile(f.Window.ID)); err != nil {
		return out, err
	}
	if out.narrow, err = s.bandPicture(s.narrow, m, narrowFile(f.Window.ID)); err != nil {
		return out, err
	}
	m.Grey = true
	if out.grey, err = s.bandPicture(s.large, m, greyFile(f.Window.ID)); err != nil {
		return out, err
	}
	maps, err := s.weeks(ctx, f, without)
	if err != nil {
		return out, err
	}
	out.frames = maps.frames
	out.sheet, err = s.save(s.large.Sheet(s.caption(f), maps.maps), sheetFile(f.Window.ID), mapScale)
	return out, err
}

// caption holds the words around a window's pictures.
func (s *studio) caption(f *weeks.Field) render.Caption {
	c := render.Caption{
		Title:    s.recipe.Title,
		Subtitle: f.Window.Title + ". " + lead(f.Window, measures(s.recipe)) + ".",
		Source:   fmt.Sprintf("Edition %d", s.recipe.Edition),
		Cautions: []string{caution.Short},
	}
	if s.recipe.Normals.Period != "" {
		c.Source += ", normals of " + s.recipe.Normals.Period
	}
	c.Source += ". "
	if s.recipe.Credits != "" {
		c.Source += strings.TrimSuffix(s.recipe.Credits, ".") + ". "
	}
	return c
}

// ground cuts a continuous raster into shapes for a picture: it reaches
// beyond the cells that have a value, under whatever limits the land.
func ground(r *grid.Raster[float32], breaks []float64) ([]bands.Band, error) {
	set, err := bands.Trace(bands.Field{Day: r}.Extend(beyond), breaks, bands.Options{})
	return set.Bands, err
}

// below returns the ground on which a continuous raster is under a limit.
func below(r *grid.Raster[float32], limit float64) (orb.MultiPolygon, error) {
	parts, err := ground(r, []float64{limit})
	if err != nil || len(parts) == 0 || parts[0].Index != 0 {
		return nil, err
	}
	return parts[0].Shape, nil
}

// bandMap puts a window's ground and legend together.
func (s *studio) bandMap(d drawing, parts []bands.Band, without []render.Undated) (render.BandMap, error) {
	m := render.BandMap{Caption: s.caption(d.field), Undated: without}
	km2 := d.field.BandAreas(d.weeks)
	for i, b := range d.weeks {
		m.Bands = append(m.Bands, render.Band{From: b.From, To: b.To, Label: b.Label(), Share: km2[i] / s.land})
	}
	for _, part := range parts {
		m.Bands[part.Index].Shape = part.Shape
	}
	if flat := d.field.AreaOf()[crossing.Flat]; flat > 0 {
		shape, err := below(d.field.Slope, crossing.FlatSlope)
		if err != nil {
			return m, err
		}
		m.Uncertain = render.Overlay{Label: "week uncertain: crosses slowly", Shape: shape, Share: flat / s.land}
	}
	return m, nil
}

// undated returns the ground without a day, by its reason, in words that suit
// the direction.
func (s *studio) undated(f *weeks.Field) ([]render.Undated, error) {
	words := map[crossing.Reason]string{crossing.Never: "never gets that warm", crossing.Always: "always warmer"}
	if f.Window.Trigger.Direction == crossing.Cooling {
		words[crossing.Always] = "never cools to it"
	}
	areas := f.AreaOf()
	var out []render.Undated
	for _, u := range []struct {
		reason crossing.Reason
		look   render.Reason
	}{{crossing.Never, render.Never}, {crossing.Always, render.Always}} {
		if areas[u.reason] == 0 {
			continue
		}
		shape, err := below(f.Margin(u.reason), 0)
		if err != nil {
			return nil, err
		}
		out = append(out, render.Undated{Reason: u.look, Label: words[u.reason], Shape: shape, Share: areas[u.reason] / s.land})
	}
	return out, nil
}

func (s *studio) bandPicture(atlas *render.Atlas, m render.BandMap, name string) (site.Picture, error) {
	page, err := atlas.Bands(m)
	if err != nil {
		return site.Picture{}, err
	}
	return s.save(page, name, mapScale)
}

// series is the week maps of a window.
type series struct {
	maps   []render.StatusMap
	frames []site.Frame
}

// weeks draws the frames of a window, several at a time.
func (s *studio) weeks(ctx context.Context, f *weeks.Field, without []render.Undated) (series, error) {
	frames := f.Frames()
	out := series{maps: make([]render.StatusMap, len(frames)), frames: make([]site.Frame, len(frames))}
	errs := make([]error, len(frames))
	next := make(chan int)
	var wg sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := range next {
				if out.maps[i], errs[i] = s.statusMap(f, frames[i], without); errs[i] == nil {
					out.frames[i], errs[i] = s.frame(f, frames[i].Week, out.maps[i])
				}
			}
		})
	}
	for i := range frames {
		if ctx.Err() != nil {
			break
		}
		next <- i
	}
	close(next)
	wg.Wait()
	return out, errors.Join(append(errs, ctx.Err())...)
}

// statusMap puts the ground of one week together.
func (s *studio) statusMap(f *weeks.Field, at weeks.Frame, without []render.Undated) (render.StatusMap, error) {
	m := render.StatusMap{Caption: s.caption(f), Week: at.Week.String(), Undated: without}
	stages := f.Stages(at.Middle)
	parts, err := ground(stages, weeks.StageBreaks)
	if err != nil {
		return m, err
	}
	km2 := weeks.StageAreas(stages)
	for _, part := range parts {
		m.Areas = append(m.Areas, render.StatusArea{Status: status.Status(part.Index), Shape: part.Shape, Share: km2[part.Index] / s.land})
	}
	return m, nil
}

// frame draws one week.
func (s *studio) frame(f *weeks.Field, w season.Week, m render.StatusMap) (site.Frame, error) {
	picture, err := s.save(s.frames.Status(m), frameFile(f.Window.ID, w), 1)
	picture.Alt = frameAlt(f, w)
	return site.Frame{Week: w, Picture: picture}, err
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
