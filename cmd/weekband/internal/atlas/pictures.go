package atlas

import (
	"context"
	"fmt"
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
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
	Weeks              WeekSeries
	More               []site.Map        // further kinds of maps
	Handouts           map[string]string // by id of region
}

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
