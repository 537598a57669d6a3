package atlas

import (
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/render"
	"weekband/render/site"
)

// weeksMap draws days as weeks, such as those of early or late years, in the
// classes of the typical week.
func (s *studio) weeksMap(win tracing.Window, kind recipe.Map, days *grid.Raster[float32], typical render.BandMap) (site.Map, error) {
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
