package atlas

import (
	"context"
	"slices"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/abreast"
	"weekband/grid/season"
	"weekband/grid/weeks"
	"weekband/render"
	"weekband/render/press"
	"weekband/render/site"
)

// further draws the further maps of a window. typical lends them its words and
// its ground without a day.
func (s *studio) further(ctx context.Context, win tracing.Window, typical render.BandMap) ([]site.Map, error) {
	jobs := s.jobs(ctx, win, typical)
	out := make([]site.Map, len(jobs))
	err := abreast.InTurn(ctx, len(jobs), func(i int) (err error) { out[i], err = jobs[i](); return err })
	return out, err
}

// jobs lists what draws each map, in the order of the page.
func (s *studio) jobs(ctx context.Context, win tracing.Window, typical render.BandMap) (jobs []drawMap) {
	for _, kind := range s.recipe.Maps {
		if why(s.in, kind, win.Field) == "" {
			jobs = append(jobs, mapKindOf(kind).draw(ctx, s, win, typical)...)
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

// finish saves the page of one further map.
func (s *studio) finish(page *press.Page, file string, t tale, alt string) (site.Map, error) {
	picture, err := s.save(page, file, tracing.MapScale)
	picture.Alt = alt
	return site.Map{Title: t.title, Picture: picture}, err
}
