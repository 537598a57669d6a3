package pages

import (
	"cmp"
	"context"
	"slices"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/grid/abreast"
	"weekband/regions/report"
	"weekband/render/chart"
	"weekband/render/site"
)

// listed returns the regions as the pages list them.
func listed(in *inputs.Set, rows []report.Row, slugs map[string]string) []site.Region {
	n := len(in.Areas.Regions)
	out, titles := make([]site.Region, n), in.Areas.Titles()
	for i, r := range in.Areas.Regions {
		out[i] = site.Region{ID: r.ID, Name: titles[i], Slug: slugs[r.ID], At: r.Inside(), Box: r.Bounds}
		for row := i; row < len(rows); row += n {
			out[i].Rows = append(out[i].Rows, &rows[row])
		}
	}
	return out
}

// writeRegionPages writes the page of every region.
func writeRegionPages(ctx context.Context, w *site.Writer, e *site.Edition, in *inputs.Set, drawn atlas.Album) error {
	beside, towns := in.Areas.Neighbours(), placesBy(in)
	in.Say.Work(len(e.Regions), "pages of regions")
	return abreast.InTurn(ctx, len(e.Regions), func(i int) error {
		r := &e.Regions[i]
		page := site.RegionPage{
			Region: r, Places: towns[i], Card: drawn.Cards[r.ID],
			Locator: site.Locator{Width: drawn.Locators.Width, Height: drawn.Locators.Height, Overview: drawn.Locators.Overview(i), Near: drawn.Locators.Near(i)},
		}
		if r.Dated() {
			page.Calendar = output.CalendarFile(r.Slug)
		}
		for _, n := range beside[i] {
			page.Neighbours = append(page.Neighbours, site.Neighbour{Region: &e.Regions[n.Region], Apart: n.Border == 0})
		}
		for k := range e.Windows {
			page.Seasons = append(page.Seasons, seasonOf(e, &e.Windows[k], r.Rows[k], drawn.Windows[k].Handouts[r.ID]))
		}
		defer in.Say.Did(1)
		return w.Region(&page)
	})
}

// seasonOf is what a window is in a region, with its charts.
func seasonOf(e *site.Edition, w *site.Window, row *report.Row, handout string) site.Season {
	s := site.Season{Window: w, Row: row, Years: yearsOf(row), Handout: handout}
	if c, ok := chart.Soil(e.Language, row, e.Measures); ok {
		s.Charts = append(s.Charts, c)
	}
	if c, ok := chart.Worth(e.Language, row); ok {
		s.Charts = append(s.Charts, c)
	}
	return s
}

// yearsOf are the crossing days of an early and a late year of a region.
func yearsOf(r *report.Row) *site.Years {
	if r.Value == nil {
		return nil
	}
	early, late := r.Years()
	return &site.Years{Early: early, Late: late}
}

// mostPlaces is how many places a region's page names.
const mostPlaces = 24

// placesBy lists the places of every region, the largest first, by the index
// of the region.
func placesBy(in *inputs.Set) [][]site.Place {
	type ranked struct {
		site.Place
		rank int
	}
	found := make([][]ranked, len(in.Areas.Regions))
	for _, p := range in.Places {
		if i, ok := in.Areas.Holder(p.At); ok {
			found[i] = append(found[i], ranked{site.Place{Name: p.Name, At: p.At}, cmp.Or(p.Rank, 1<<30)})
		}
	}
	out := make([][]site.Place, len(found))
	for i, list := range found {
		slices.SortStableFunc(list, func(a, b ranked) int { return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.Name, b.Name)) })
		for _, p := range list[:min(len(list), mostPlaces)] {
			out[i] = append(out[i], p.Place)
		}
	}
	return out
}
