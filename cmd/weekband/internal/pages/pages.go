package pages

import (
	"context"
	"io"
	"os"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/regions/report"
	"weekband/render/chart"
	"weekband/render/lookup"
	"weekband/render/site"
)

// Write writes the pages of an edition under root: the index, one for every window
// and region, what embeds elsewhere, and what others find the site by. It links to
// files that the other rooms write, the table of cells if cells says so, and reads
// the index of lookups, which has to be there. windows and rows are those that the
// album was drawn of.
func Write(ctx context.Context, root *os.Root, r *recipe.Recipe, in *inputs.Set, windows []tracing.Window, rows []report.Row, album atlas.Album, cells bool) error {
	e := newEdition(r, in, windows, rows, album)
	e.Files = editionFiles(in, cells)
	var err error
	if e.Index, err = root.ReadFile(lookup.IndexFile); err != nil {
		return err
	}
	w, err := site.NewWriter(root, e)
	if err != nil {
		return err
	}
	if err := w.Write(); err != nil {
		return err
	}
	if err := atlas.WriteSights(root, windows, album.Windows); err != nil {
		return err
	}
	if err := announce(root, r, w.Pages()); err != nil {
		return err
	}
	if album.Locators == nil {
		return nil
	}
	if err := publish.Create(root, site.TerritoryFile, func(w io.Writer) error { _, err := w.Write(album.Locators.LandSVG()); return err }); err != nil {
		return err
	}
	return writeRegionPages(ctx, w, &e, in, album)
}

// newEdition puts together what all pages tell.
func newEdition(r *recipe.Recipe, in *inputs.Set, windows []tracing.Window, rows []report.Row, album atlas.Album) site.Edition {
	measures := phrase.Measures(r)
	e := site.Edition{
		Title: r.Title, Year: r.Edition, Period: r.Normals.Period, Credits: r.Credits,
		Measures: measures, Sure: phrase.Sure(r, in), Heed: r.Language.Sentences.Caution, Cautions: r.Language.Sentences.Cautions, Language: r.Language,
		Address: r.Address, Published: r.Published, Box: in.Normals.Grid().Box(), Card: album.Card, Regions: listed(in, rows, album.Slugs),
	}
	for i := range windows {
		f := windows[i].Field
		e.Measured = append(e.Measured, phrase.Lead(r.Language, f.Window, measures))
		win := newWindow(r.Language, &windows[i], measures, report.Of(rows, f.Window.ID), album.Windows[i])
		if c, ok := chart.Statuses(r.Language, win.Rows); ok {
			win.Chart.Statuses = &c
		}
		if c, ok := chart.Relation(r.Language, f, in.Terrain); ok {
			win.Chart.Slope = &c
		}
		e.Windows = append(e.Windows, win)
	}
	if r.Address != "" && !r.Published.IsZero() {
		e.Feed = site.FeedFile
	}
	return e
}
