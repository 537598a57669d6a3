package atlas

import (
	"context"
	"slices"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/classes"
	"weekband/grid/season"
	"weekband/render"
	"weekband/render/site"
)

// worthMap draws what an application in the middle of a week would still stop.
func (s *studio) worthMap(ctx context.Context, win tracing.Window, w season.Week, typical render.BandMap) (site.Map, error) {
	r, err := win.Field.Worth(ctx, w.Middle())
	if err != nil {
		return site.Map{}, err
	}
	typical.Cautions = append(slices.Clone(typical.Cautions), s.lang.Sentences.Window.Residual(win.Field.Window.Treatment))
	r = tracing.Pooled(r, win.Detail.Large)
	return s.valueMap(win, r, classes.Even(r, leastPercent), s.worthTale(w), worthOfFile(win.Field.Window.ID, w), typical)
}

// valueMap draws a quantity in classes. typical lends it its words and its ground
// without a day.
func (s *studio) valueMap(win tracing.Window, r *grid.Raster[float32], list []classes.Class, t tale, file string, typical render.BandMap) (site.Map, error) {
	m := render.ValueMap{Caption: typical.Caption, Heading: t.heading, Undated: typical.Undated}
	m.Subtitle = t.subtitle(win.Field)
	km2, part := classes.Areas(list, r), tracing.Fair(r, win)
	for i, c := range list {
		m.Classes = append(m.Classes, render.ValueClass{From: c.From, To: c.To, Label: s.lang.Class(c), Share: km2[i] * part / s.land})
	}
	parts, err := s.ground(r, classes.Breaks(list))
	if err != nil {
		return site.Map{}, err
	}
	for _, part := range parts {
		m.Classes[part.Index].Shape = part.Shape
	}
	page, err := s.large.Values(m)
	if err != nil {
		return site.Map{}, err
	}
	return s.finish(page.Page, file, t, t.alt(win.Field, valueRange(r, list, t.unit)))
}

// daysMap draws a number of days of every cell, such as the expected error.
func (s *studio) daysMap(win tracing.Window, kind recipe.Map, r *grid.Raster[float32], typical render.BandMap) (site.Map, error) {
	return s.valueMap(win, r, classes.Even(r, LeastDays), s.taleOf(kind, win.Field), furtherFile(win.Field.Window.ID, kind), typical)
}

// Least widths of the classes of maps of a quantity.
const (
	LeastDays    = 1.0 // days
	leastPercent = 5.0 // percent of the season's germination
)
