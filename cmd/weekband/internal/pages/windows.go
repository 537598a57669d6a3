package pages

import (
	"strings"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/crossing"
	"weekband/regions/report"
	"weekband/render/site"
	"weekband/render/wording"
)

// newWindow puts together what the pages tell of a window; what is measured.
func newWindow(l *wording.Language, win *tracing.Window, what string, rows []report.Row, p atlas.Pictures) site.Window {
	f := win.Field
	w := site.Window{
		Window: &f.Window, Lead: strings.TrimSpace(phrase.Lead(l, f.Window, what) + ". " + phrase.HowSure(l, f)), Rows: rows,
		Map: p.Main, Wide: p.Wide, Narrow: p.Narrow, Handout: atlas.HandoutFile(f.Window.ID),
		Sheet: p.Sheet, NarrowSheet: p.NarrowSheet, Weeks: p.Weeks.Frames, Animation: p.Weeks.Animation, More: p.More,
		Files: windowFiles(f, p), Residual: l.Sentences.Window.Residual(f.Window.Treatment),
	}
	w.Map.Alt = phrase.Shown(l, f, what, rows)
	w.Wide.Alt = w.Map.Alt
	land, km2 := win.Areas.Land(), f.BandAreas(win.Weeks)
	for i, b := range win.Weeks {
		w.Bands = append(w.Bands, site.Band{Label: l.Stretch(b.From, b.To, b.OpenBegin, b.OpenEnd), Km2: km2[i], Share: km2[i] / land})
	}
	if areas := &win.Areas; land > 0 {
		w.Shares = site.Shares{
			Dated: areas[crossing.Dated] / land, Flat: areas[crossing.Flat] / land,
			Never: areas[crossing.Never] / land, Always: areas[crossing.Always] / land,
		}
	}
	return w
}
