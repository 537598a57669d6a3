package atlas

import (
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/render"
	"weekband/render/site"
)

// yearMap draws the weeks of early or late years.
func (s *studio) yearMap(win tracing.Window, kind recipe.Map, typical render.BandMap) (site.Map, error) {
	days := win.Early
	if kind == recipe.Late {
		days = win.Late
	}
	m, err := s.bandMap(win, days, typical.Undated)
	if err != nil {
		return site.Map{}, err
	}
	t := s.taleOf(kind, win.Field)
	m.Subtitle, m.Heading = t.subtitle(win.Field), t.heading
	page, err := s.large.Bands(m)
	if err != nil {
		return site.Map{}, err
	}
	return s.finish(page.Page, furtherFile(win.Field.Window.ID, kind), t, t.alt(win.Field, weekRange(s.lang, days)))
}
