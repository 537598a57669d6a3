package pages

import (
	"context"
	"io"
	"os"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/crossing"
	"weekband/regions/report"
	"weekband/render/chart"
	"weekband/render/lookup"
	"weekband/render/site"
	"weekband/render/wording"
)

// Write writes the pages.
func Write(ctx context.Context, root *os.Root, r *recipe.Recipe, in *inputs.Set, drawings []tracing.Window, rows []report.Row, drawn atlas.Album, cells bool) error {
	e := site.Edition{
		Title: r.Title, Year: r.Edition, Period: r.Normals.Period, Credits: r.Credits,
		Measures: phrase.Measures(r), Sure: phrase.Sure(r, in), Heed: r.Language.Sentences.Caution, Cautions: r.Language.Sentences.Cautions, Language: r.Language,
		Address: r.Address, Published: r.Published, Box: in.Normals.Grid().Box(), Files: editionFiles(in, cells), Card: drawn.Card,
	}
	var err error
	if e.Index, err = root.ReadFile(lookup.IndexFile); err != nil {
		return err
	}
	for i := range drawings {
		e.Measured = append(e.Measured, phrase.Lead(r.Language, drawings[i].Field.Window, phrase.Measures(r)))
		win := window(r.Language, &drawings[i], phrase.Measures(r), report.Of(rows, drawings[i].Field.Window.ID), drawn.Windows[i])
		if c, ok := chart.Statuses(r.Language, win.Rows); ok {
			win.Chart.Statuses = &c
		}
		if c, ok := chart.Relation(r.Language, drawings[i].Field, in.Terrain); ok {
			win.Chart.Slope = &c
		}
		e.Windows = append(e.Windows, win)
	}
	if r.Address != "" && !r.Published.IsZero() {
		e.Feed = site.FeedFile
	}
	e.Regions = listed(in, rows, drawn.Slugs)
	w, err := site.NewWriter(root, e)
	if err != nil {
		return err
	}
	if err := w.Write(); err != nil {
		return err
	}
	if err := atlas.WriteSights(root, drawings, drawn.Windows); err != nil {
		return err
	}
	if err := announce(root, r, w.Pages()); err != nil {
		return err
	}
	if drawn.Locators == nil {
		return nil
	}
	if err := publish.Create(root, site.TerritoryFile, func(w io.Writer) error { _, err := w.Write(drawn.Locators.LandSVG()); return err }); err != nil {
		return err
	}
	return writeRegionPages(ctx, w, &e, in, drawn)
}

// editionFiles lists the downloads that belong to no window.
func editionFiles(in *inputs.Set, cells bool) []site.File {
	files := []site.File{
		{Name: output.TableCSV, What: "regions as CSV"},
		{Name: output.TableXLSX, What: "regions as a spreadsheet"},
		{Name: output.WorthFile, What: "what being early or late costs, as CSV"},
	}
	if cells {
		files = append(files, site.File{Name: output.CellsFile, What: "every cell as gzipped CSV"})
	}
	if len(in.Areas.Regions) > 0 {
		files = append(files, site.File{Name: output.RegionsFile, What: "region outlines as GeoJSON"})
	}
	if in.Stations != nil {
		files = append(files, site.File{Name: inputs.StationsFile, What: "how well the stations agree"})
	}
	return files
}

func window(l *wording.Language, d *tracing.Window, what string, rows []report.Row, p atlas.Pictures) site.Window {
	f := d.Field
	w := site.Window{
		Window: &f.Window, Lead: strings.TrimSpace(phrase.Lead(l, f.Window, what) + ". " + phrase.HowSure(l, f)), Rows: rows,
		Map: p.Main, Wide: p.Wide, Narrow: p.Narrow, Handout: atlas.HandoutFile(f.Window.ID),
		Sheet: p.Sheet, NarrowSheet: p.NarrowSheet, Weeks: p.Weeks.Frames, Animation: p.Weeks.Animation, More: p.More,
		Files: []site.File{
			{Name: p.Main.File, What: "map as PNG"},
			{Name: atlas.HandoutFile(f.Window.ID), What: "handout to print, as PDF"},
			{Name: atlas.PrintFile(f.Window.ID), What: "map to print, as PDF"},
			{Name: atlas.VectorFile(f.Window.ID), What: "map as SVG"},
			{Name: p.Grey.File, What: "map in grey, for copiers"},
			{Name: p.Sheet.File, What: "all weeks on a sheet"},
			{Name: output.GridFile(f.Window.ID), What: "crossing day as GeoTIFF"},
			{Name: output.BandsFile(f.Window.ID), What: "bands as GeoJSON"},
		},
	}
	if w.Animation != nil {
		w.Files = slices.Insert(w.Files, 3, site.File{Name: w.Animation.File, What: "all weeks as an animation"})
	}
	if f.Error != nil {
		w.Files = append(w.Files, site.File{Name: output.ErrorFile(f.Window.ID), What: "its standard error as GeoTIFF"})
	}
	w.Residual = l.Sentences.Window.Residual(f.Window.Treatment)
	w.Map.Alt = phrase.Shown(l, f, what, rows)
	w.Wide.Alt = w.Map.Alt
	areas, land := d.Areas, d.Areas.Land()
	km2 := f.BandAreas(d.Weeks)
	for i, b := range d.Weeks {
		w.Bands = append(w.Bands, site.Band{Label: l.Stretch(b.From, b.To, b.OpenBegin, b.OpenEnd), Km2: km2[i], Share: km2[i] / land})
	}
	if land > 0 {
		w.Shares = site.Shares{
			Dated: areas[crossing.Dated] / land, Flat: areas[crossing.Flat] / land,
			Never: areas[crossing.Never] / land, Always: areas[crossing.Always] / land,
		}
	}
	return w
}
