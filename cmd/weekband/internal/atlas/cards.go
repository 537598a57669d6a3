package atlas

import (
	"context"
	"fmt"

	"weekband/grid/abreast"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/site"
)

func cardFile(slug string) string { return "cards/" + slug + ".png" }

// editionCard is the file of the card of an edition as a whole; no region's
// name in files has a dot.
const editionCard = "cards/the.edition.png"

// mostCardWindows is how many windows a region's card has room for.
const mostCardWindows = 3

// card draws the image that goes with links to the edition, its map that of the
// first window.
func (s *studio) card(m render.BandMap) (site.Picture, error) {
	picture, err := s.drawCard(editionCard, render.Card{
		Title: s.recipe.Title, Subtitle: m.Subtitle + " " + s.lang.Sentences.Edition(s.recipe.Edition, ""),
		Caution: s.lang.Sentences.Caution, Map: &m,
	})
	picture.Alt = m.Subtitle
	return picture, err
}

// regionCards draws the images that go with links to the pages of regions and
// returns them by the id of the region. When there are more regions than have
// handouts, links to all of them go with that of the edition.
func (s *studio) regionCards(ctx context.Context, rows []report.Row, edition site.Picture) (map[string]site.Picture, error) {
	areas, titles := s.in.Areas.Regions, s.in.Areas.Titles()
	out := make([]site.Picture, len(areas))
	cards := map[string]site.Picture{}
	if len(areas) > mostSheets && !s.recipe.AllHandouts {
		for _, r := range areas {
			cards[r.ID] = edition
		}
		return cards, nil
	}
	err := abreast.InTurn(ctx, len(areas), func(i int) (err error) {
		c := render.Card{
			Title: titles[i], Subtitle: s.recipe.Title + ". " + s.lang.Sentences.Edition(s.recipe.Edition, ""),
			Caution: s.lang.Sentences.Caution, Region: &render.Region{Name: areas[i].Name, Shape: areas[i].Shape},
		}
		for row := i; row < len(rows) && len(c.Windows) < mostCardWindows; row += len(areas) {
			c.Windows = append(c.Windows, s.cardWindow(&rows[row]))
		}
		out[i], err = s.drawCard(cardFile(s.slugs[areas[i].ID]), c)
		out[i].Alt = titles[i] + ", " + s.recipe.Title
		return err
	})
	for i, r := range areas {
		cards[r.ID] = out[i]
	}
	return cards, err
}

func (s *studio) cardWindow(r *report.Row) render.CardWindow {
	if !r.MostlyDated() {
		return render.CardWindow{Title: r.Window.Title, Words: weekless(s.lang, r)}
	}
	return render.CardWindow{Title: r.Window.Title, Calendar: r.Calendar}
}

func (s *studio) drawCard(name string, c render.Card) (site.Picture, error) {
	page, err := s.page.Card(c)
	if err != nil {
		return site.Picture{}, fmt.Errorf("card of %s: %w", c.Title, err)
	}
	return s.save(page.Page, name, 1)
}
