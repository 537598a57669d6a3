package tracing

import (
	"context"
	"fmt"
	"slices"

	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/weeks"
	"weekband/regions/bands"
)

// Window is one window cut into bands.
type Window struct {
	Field *weeks.Field
	Scale []weeks.Band // the classes of all maps of weeks
	Weeks []weeks.Band // those of the legend: the stretch of scale with ground
	Bands bands.Set    // their ground, and that without a day by its crossing.Reason

	Early, Late *grid.Raster[float32] // days, of blocks of Detail.Large; nil when not drawn

	Detail Detail        // of its shapes and pictures
	Areas  ReasonAreas   // of the whole field
	Frames []weeks.Frame // the weeks of its series
}

// traced cuts a field into bands. When early and late years are drawn as well
// all three maps have one scale.
func traced(f *weeks.Field, kinds []recipe.Map, by Detail, kept *keep.Store) (Window, error) {
	w := Window{Field: f, Weeks: f.Bands(), Detail: by, Areas: f.AreaOf(), Frames: f.Frames()}
	if slices.Contains(kinds, recipe.Early) || slices.Contains(kinds, recipe.Late) {
		w.Early, w.Late = earlyLate(f, by.Large)
		w.Scale = f.Scale(w.Early, w.Late)
		w.Weeks, _ = weeks.Shown(w.Scale, f.Day)
	} else {
		w.Scale = w.Weeks
	}
	var err error
	w.Bands, err = CutBands(kept, classed(f, by.Files), 0, weeks.Breaks(w.Weeks), bands.Options{})
	if err != nil {
		return w, fmt.Errorf("window %s: %w", f.Window.ID, err)
	}
	return w, nil
}

// Trace cuts every field into bands, for maps of the given kinds. Bands of earlier
// builds are taken from kept work; nil keeps none.
func Trace(ctx context.Context, fields []*weeks.Field, kinds []recipe.Map, by Detail, kept *keep.Store) ([]Window, error) {
	var out []Window
	for _, f := range fields {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		w, err := traced(f, kinds, by, kept)
		if err != nil {
			return nil, err
		}
		out = append(out, w)
	}
	return out, nil
}
