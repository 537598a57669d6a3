package main

import (
	"context"
	"io"
	"os"
	"slices"
	"strings"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/crossing"
	"weekband/regions/report"
	"weekband/render/chart"
	"weekband/render/lookup"
	"weekband/render/site"
	"weekband/render/wording"
)

// writeSite writes the pages.
func writeSite(ctx context.Context, root *os.Root, r *recipe.Recipe, in *inputs, drawings []drawing, rows []report.Row, drawn album, cells bool) error {
	e := site.Edition{
		Title: r.Title, Year: r.Edition, Period: r.Normals.Period, Credits: r.Credits,
		Measures: measures(r), Sure: sure(r, in), Heed: r.Language.Sentences.Caution, Cautions: r.Language.Sentences.Cautions, Language: r.Language,
		Address: r.Address, Published: r.Published, Box: in.normals.Grid().Box(), Files: editionFiles(in, cells), Card: drawn.card,
	}
	var err error
	if e.Index, err = root.ReadFile(lookup.IndexFile); err != nil {
		return err
	}
	for i := range drawings {
		e.Measured = append(e.Measured, lead(r.Language, drawings[i].field.Window, measures(r)))
		win := window(r.Language, &drawings[i], measures(r), report.Of(rows, drawings[i].field.Window.ID), drawn.windows[i])
		if c, ok := chart.Statuses(r.Language, win.Rows); ok {
			win.Chart.Statuses = &c
		}
		if c, ok := chart.Relation(r.Language, drawings[i].field, in.terrain); ok {
			win.Chart.Slope = &c
		}
		e.Windows = append(e.Windows, win)
	}
	if r.Address != "" && !r.Published.IsZero() {
		e.Feed = site.FeedFile
	}
	e.Regions = listed(in, rows, drawn.slugs)
	w, err := site.NewWriter(root, e)
	if err != nil {
		return err
	}
	if err := w.Write(); err != nil {
		return err
	}
	if err := writeSights(root, drawings, drawn.windows); err != nil {
		return err
	}
	if err := announce(root, r, w.Pages()); err != nil {
		return err
	}
	if drawn.locators == nil {
		return nil
	}
	if err := create(root, site.TerritoryFile, func(w io.Writer) error { _, err := w.Write(drawn.locators.LandSVG()); return err }); err != nil {
		return err
	}
	return writeRegionPages(ctx, w, &e, in, drawn)
}

// editionFiles lists the downloads that belong to no window.
func editionFiles(in *inputs, cells bool) []site.File {
	files := []site.File{
		{Name: tableCSV, What: "regions as CSV"},
		{Name: tableXLSX, What: "regions as a spreadsheet"},
		{Name: worthFile, What: "what being early or late costs, as CSV"},
	}
	if cells {
		files = append(files, site.File{Name: cellsFile, What: "every cell as gzipped CSV"})
	}
	if len(in.areas.Regions) > 0 {
		files = append(files, site.File{Name: regionsFile, What: "region outlines as GeoJSON"})
	}
	if in.stations != nil {
		files = append(files, site.File{Name: stationsFile, What: "how well the stations agree"})
	}
	return files
}

func window(l *wording.Language, d *drawing, what string, rows []report.Row, p pictures) site.Window {
	f := d.field
	w := site.Window{
		Window: &f.Window, Lead: strings.TrimSpace(lead(l, f.Window, what) + ". " + howSure(l, f)), Rows: rows,
		Map: p.main, Wide: p.wide, Narrow: p.narrow, Handout: handoutFile(f.Window.ID),
		Sheet: p.sheet, NarrowSheet: p.narrowSheet, Weeks: p.weeks.frames, Animation: p.weeks.animation, More: p.more,
		Files: []site.File{
			{Name: p.main.File, What: "map as PNG"},
			{Name: handoutFile(f.Window.ID), What: "handout to print, as PDF"},
			{Name: printFile(f.Window.ID), What: "map to print, as PDF"},
			{Name: vectorFile(f.Window.ID), What: "map as SVG"},
			{Name: p.grey.File, What: "map in grey, for copiers"},
			{Name: p.sheet.File, What: "all weeks on a sheet"},
			{Name: gridFile(f.Window.ID), What: "crossing day as GeoTIFF"},
			{Name: bandsFile(f.Window.ID), What: "bands as GeoJSON"},
		},
	}
	if w.Animation != nil {
		w.Files = slices.Insert(w.Files, 3, site.File{Name: w.Animation.File, What: "all weeks as an animation"})
	}
	if f.Error != nil {
		w.Files = append(w.Files, site.File{Name: errorFile(f.Window.ID), What: "its standard error as GeoTIFF"})
	}
	w.Residual = l.Sentences.Window.Residual(f.Window.Treatment)
	w.Map.Alt = shown(l, f, what, rows)
	w.Wide.Alt = w.Map.Alt
	areas, land := d.areas, d.areas.land()
	km2 := f.BandAreas(d.weeks)
	for i, b := range d.weeks {
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
