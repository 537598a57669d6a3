package atlas

import (
	"context"
	"slices"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/abreast"
	"weekband/grid/classes"
	"weekband/grid/season"
	"weekband/grid/weeks"
	"weekband/render"
	"weekband/render/press"
	"weekband/render/site"
)

// Least widths of the classes of further maps, in days and in percent.
const (
	LeastDays    = 1.0
	leastPercent = 5.0
)

// known reports whether the input tells enough for a kind of map of a window.
func known(in *inputs.Set, kind recipe.Map, f *weeks.Field) bool {
	switch kind {
	case recipe.Spread:
		return in.SD != nil
	case recipe.Error:
		return f.Error != nil
	}
	return true
}

// NoteUndrawn notes the maps that are asked for and cannot be drawn; what is
// known is the same for all windows.
func NoteUndrawn(in *inputs.Set, r *recipe.Recipe, fields []*weeks.Field) {
	noteLetters(in, r)
	for _, kind := range r.Maps {
		switch {
		case known(in, kind, fields[0]):
		case kind == recipe.Spread:
			in.Note("no map of the spread from year to year: the input holds no standard deviations, and the usual spread is the same everywhere")
		default:
			in.Note("no map of the expected error: it is not known for this input")
		}
	}
	for _, w := range r.WorthOf {
		if !slices.ContainsFunc(fields, func(f *weeks.Field) bool { return slices.Contains(worthWeeks(r, f), w) }) {
			in.Note("no map of the worth of %s: the week lies in no window's season", w)
		}
	}
}

// further draws the further maps of a window. typical lends them its words and
// its ground without a day.
func (s *studio) further(ctx context.Context, d tracing.Window, typical render.BandMap) ([]site.Map, error) {
	jobs := s.jobs(ctx, d, typical)
	out := make([]site.Map, len(jobs))
	err := abreast.InTurn(ctx, len(jobs), func(i int) (err error) { out[i], err = jobs[i](); return err })
	return out, err
}

// jobs lists what draws each map, in the order of the page.
func (s *studio) jobs(ctx context.Context, d tracing.Window, typical render.BandMap) (jobs []func() (site.Map, error)) {
	f := d.Field
	for _, kind := range s.recipe.Maps {
		if !known(s.in, kind, f) {
			continue
		}
		switch kind {
		case recipe.Early, recipe.Late:
			jobs = append(jobs, func() (site.Map, error) { return s.yearMap(d, kind, typical) })
		case recipe.Spread:
			jobs = append(jobs, func() (site.Map, error) { return s.days(d, kind, tracing.Pooled(f.Spread, d.Large), typical) })
		case recipe.Error:
			jobs = append(jobs, func() (site.Map, error) { return s.days(d, kind, tracing.ExpectedErrors(f, d.Large), typical) })
		case recipe.Worth:
			for _, w := range worthWeeks(s.recipe, f) {
				jobs = append(jobs, func() (site.Map, error) { return s.worthMap(ctx, d, w, typical) })
			}
		}
	}
	return jobs
}

// worthWeeks are the weeks whose worth is drawn of a window: those asked for
// that lie in its season, or the middle of on time.
func worthWeeks(r *recipe.Recipe, f *weeks.Field) (out []season.Week) {
	if len(r.WorthOf) == 0 {
		if day, ok := f.OntimeMiddle(); ok {
			out = append(out, day.Week())
		}
		return out
	}
	for _, at := range f.Frames() {
		if slices.Contains(r.WorthOf, at.Week) {
			out = append(out, at.Week)
		}
	}
	slices.Sort(out)
	return out
}

// yearMap draws the weeks of early or late years.
func (s *studio) yearMap(d tracing.Window, kind recipe.Map, typical render.BandMap) (site.Map, error) {
	days := d.Early
	if kind == recipe.Late {
		days = d.Late
	}
	m, err := s.bandMap(d, days, typical.Undated)
	if err != nil {
		return site.Map{}, err
	}
	t := s.taleOf(kind, d.Field)
	m.Subtitle, m.Heading = t.subtitle(d.Field), t.heading
	page, err := s.large.Bands(m)
	if err != nil {
		return site.Map{}, err
	}
	return s.finish(page.Page, furtherFile(d.Field.Window.ID, kind), t, t.alt(d.Field, weekRange(s.lang, days)))
}

// days draws a number of days.
func (s *studio) days(d tracing.Window, kind recipe.Map, r *grid.Raster[float32], typical render.BandMap) (site.Map, error) {
	return s.valueMap(d, r, classes.Even(r, LeastDays), s.taleOf(kind, d.Field), furtherFile(d.Field.Window.ID, kind), typical)
}

// worthMap draws what an application in a week would still stop.
func (s *studio) worthMap(ctx context.Context, d tracing.Window, w season.Week, typical render.BandMap) (site.Map, error) {
	r, err := d.Field.Worth(ctx, w.Middle())
	if err != nil {
		return site.Map{}, err
	}
	typical.Cautions = append(slices.Clone(typical.Cautions), s.lang.Sentences.Window.Residual(d.Field.Window.Treatment))
	r = tracing.Pooled(r, d.Large)
	return s.valueMap(d, r, classes.Even(r, leastPercent), s.worthTale(w), worthOfFile(d.Field.Window.ID, w), typical)
}

// valueMap draws a quantity.
func (s *studio) valueMap(d tracing.Window, r *grid.Raster[float32], list []classes.Class, t tale, file string, typical render.BandMap) (site.Map, error) {
	m := render.ValueMap{Caption: typical.Caption, Heading: t.heading, Undated: typical.Undated}
	m.Subtitle = t.subtitle(d.Field)
	km2, part := classes.Areas(list, r), tracing.Fair(r, d)
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
	return s.finish(page.Page, file, t, t.alt(d.Field, valueRange(r, t.unit)))
}

// finish saves the page of one further map.
func (s *studio) finish(page *press.Page, file string, t tale, alt string) (site.Map, error) {
	picture, err := s.save(page, file, tracing.MapScale)
	picture.Alt = alt
	return site.Map{Title: t.title, Picture: picture}, err
}
