package atlas

import (
	"context"
	"fmt"
	"io"
	"os"
	"runtime"
	"slices"

	"github.com/paulmach/orb"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/weeks"
	"weekband/regions"
	"weekband/regions/bands"
	"weekband/regions/places"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/site"
	"weekband/render/wording"
)

// Widths of the pictures in layout pixels; maps have two image pixels to
// each, for dense screens and print. The recipe says how wide large ones are.
const (
	narrowWidth = 400 // the map as a phone shows it
	printDPI    = 300 // image pixels an inch of a large map in print: 8 inches for 2,400

	pageWidth   = 760 // the map beside the lookup on the pages
	screenScale = 1.6 // image pixels of maps on pages to each of layout: sharp enough on dense screens, and soon there
)

// Pictures are the image files of one window.
type Pictures struct {
	Main, Narrow, Grey site.Picture
	Wide               site.Picture // the map for a page
	sight              sight
	shaded             render.BandMap // what the maps of the typical week show
	Sheet, NarrowSheet site.Picture   // small multiples of the weeks
	Weeks              weekSeries
	More               []site.Map        // further kinds of maps
	Handouts           map[string]string // by id of region
}

func mapFile(window string) string { return "maps/" + window + ".png" }

func wideFile(window string) string { return "maps/" + window + "-page.png" }

func narrowFile(window string) string { return "maps/" + window + "-narrow.png" }

func sheetFile(window string) string { return "maps/" + window + "-sheet.png" }

func HandoutFile(window string) string { return "maps/" + window + "-handout.pdf" }

func narrowSheetFile(window string) string { return "maps/" + window + "-sheet-narrow.png" }

func greyFile(window string) string { return "maps/" + window + "-grey.png" }

func frameFile(window string, w season.Week) string {
	return fmt.Sprintf("weeks/%s/%02d.png", window, int(w))
}

func animationFile(window string) string { return "weeks/" + window + ".gif" }

// Album is all that was drawn for an edition.
type Album struct {
	Windows []Pictures
	Slugs   map[string]string       // names of regions' files by id
	Card    site.Picture            // for sharing the index
	Cards   map[string]site.Picture // for sharing regions' pages, by id

	Locators *render.Locators // nil without regions
}

// studio draws the pictures of an edition.
type studio struct {
	root                        *os.Root
	recipe                      *recipe.Recipe
	lang                        *wording.Language
	in                          *inputs.Set
	sure                        string            // how sure the days are
	slugs                       map[string]string // names of files by id of region
	land                        float64           // area of the ground with normals, km², of the window in hand
	expected                    string            // how sure the map of the window in hand is, "" when not known
	large, narrow, frames, page *render.Atlas
	kept                        *keep.Store   // work of earlier builds, nil for none
	presses                     chan struct{} // one for each picture that may be painted, or shape cut, at a time
}

// pressesFor returns how many pictures of maps of a size may be painted at a
// time: one a processor, six of the usual at most, fewer of larger ones, which
// take memory by the square of their width, some 500 MB each at 2400.
func pressesFor(size int) int {
	usual := float64(recipe.DefaultSize) / float64(size)
	return min(6, runtime.GOMAXPROCS(0), max(1, int(6*usual*usual)))
}

// Draw draws all pictures of an edition. Pictures that a kept store has of an
// earlier build are taken from it; nil keeps none.
func Draw(ctx context.Context, root *os.Root, r *recipe.Recipe, kept *keep.Store, in *inputs.Set, drawings []tracing.Window, rows []report.Row) (Album, error) {
	s := &studio{root: root, recipe: r, lang: r.Language, in: in, presses: make(chan struct{}, pressesFor(r.Size)), sure: phrase.Sure(r, in), slugs: output.Slugs(in.Areas), kept: kept}
	land, err := Territory(r, in, drawings[0].Field)
	if err != nil {
		return Album{}, err
	}
	if kept != nil {
		land.Keeper = kept
	}
	for _, a := range []struct {
		atlas **render.Atlas
		width int
	}{{&s.large, r.Size}, {&s.narrow, narrowWidth}, {&s.frames, tracing.FrameWidth}, {&s.page, pageWidth}} {
		if *a.atlas, err = render.NewAtlas(land, a.width); err != nil {
			return Album{}, err
		}
	}
	out := Album{Slugs: s.slugs}
	if out.Locators, err = s.locators(); err != nil {
		return out, err
	}
	in.Say.Work(s.count(ctx, drawings, rows), "pictures")
	for _, d := range drawings {
		p, err := s.window(ctx, d, report.Of(rows, d.Field.Window.ID))
		if err != nil {
			return out, fmt.Errorf("pictures of %s: %w", d.Field.Window.ID, err)
		}
		out.Windows = append(out.Windows, p)
	}
	if out.Card, err = s.card(out.Windows[0].shaded); err != nil {
		return out, err
	}
	out.Cards, err = s.regionCards(ctx, rows, out.Card)
	return out, err
}

// locatorWidth is the width of the small map of the whole territory, px.
const locatorWidth = 240

// locators returns the small maps of where regions lie.
func (s *studio) locators() (*render.Locators, error) {
	if len(s.in.Areas.Regions) == 0 {
		return nil, nil
	}
	var list []render.Region
	for _, r := range s.in.Areas.Regions {
		list = append(list, render.Region{Name: r.Name, Shape: r.Shape})
	}
	return s.page.NewLocators(list, locatorWidth)
}

// Territory returns what all maps share: the regions with lines thinned to
// what a picture can show, or, without regions, the outline of the cells.
func Territory(r *recipe.Recipe, in *inputs.Set, f *weeks.Field) (render.Territory, error) {
	areas := in.Areas
	if len(areas.Regions) == 0 {
		outline, err := landOf(f)
		if err != nil {
			return render.Territory{}, err
		}
		areas.Regions = []regions.Region{{Shape: outline, Bounds: regions.BoundsOf(outline)}}
	}
	main, parts, err := inputs.Parted(areas, r.Insets)
	if err != nil {
		return render.Territory{}, err
	}
	lines := len(in.Areas.Regions) > 0
	t := outlined(main, main.Bounds(), float64(r.Size*tracing.MapScale), lines)
	t.Language = r.Language
	if r.Relief {
		t.Terrain = in.Terrain
	}
	for _, p := range parts {
		inset := render.Inset{Title: p.Title, Territory: outlined(p.Areas, p.Held, tracing.InsetPixels, lines)}
		inset.Extent = p.Held
		t.Insets = append(t.Insets, inset)
	}
	for _, p := range labelled(in.Places) {
		to := &t
		for i, part := range parts {
			if part.Box.Contains(p.At) {
				to = &t.Insets[i].Territory
			}
		}
		to.Places = append(to.Places, render.Place{Name: p.Name, At: p.At, Rank: p.Rank})
	}
	return t, nil
}

// mostUnranked is how many places without a rank are a list of towns; more are
// one of postal codes or the like, which a map does not name.
const mostUnranked = 1000

// labelled returns the places that maps may name.
func labelled(list []places.Place) []places.Place {
	ranked := slices.ContainsFunc(list, func(p places.Place) bool { return p.Rank > 0 })
	if !ranked && len(list) > mostUnranked {
		return nil
	}
	return list
}

// outlined returns regions for a map of a box, which is pixels wide, with the
// lines between them if asked for.
func outlined(areas regions.Set, box grid.Box, pixels float64, lines bool) render.Territory {
	var t render.Territory
	if !lines {
		for _, r := range areas.Regions {
			t.Regions = append(t.Regions, render.Region{Shape: r.Shape})
		}
		return t
	}
	topology := areas.Topology()
	topology.Simplify(min(box.East-box.West, box.North-box.South) / pixels)
	for i, shape := range topology.Shapes() {
		t.Regions = append(t.Regions, render.Region{Name: areas.Regions[i].Name, Shape: shape})
	}
	t.Borders, t.Coast = topology.Inner(), topology.Outer()
	return t
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
	return s.press(page, name, func(w io.Writer) error { return page.PNG(w, scale) })
}

// savePrint writes a page as PNG that says its size in print.
func (s *studio) savePrint(page *render.Page, name string) (site.Picture, error) {
	return s.press(page, name, Printed(page))
}

// Printed returns what writes a large map as PNG that says its size in print.
func Printed(page *render.Page) func(io.Writer) error {
	paper := render.Print{Width: page.Layout.Width * tracing.MapScale / printDPI, DPI: printDPI}
	return func(w io.Writer) error { return page.PrintPNG(w, paper) }
}

// saveScreen writes a page as PNG for a page of the site.
func (s *studio) saveScreen(page *render.Page, name string) (site.Picture, error) {
	return s.press(page, name, func(w io.Writer) error { return page.ScreenPNG(w, screenScale) })
}

// press writes the picture of a page when a press is free.
func (s *studio) press(page *render.Page, name string, write func(io.Writer) error) (site.Picture, error) {
	s.presses <- struct{}{}
	defer func() { <-s.presses }()
	picture := site.Picture{File: name, Width: int(page.Layout.Width), Height: int(page.Layout.Height)}
	return picture, s.encode(name, write)
}
