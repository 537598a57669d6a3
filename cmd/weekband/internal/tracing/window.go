package tracing

import (
	"context"
	"fmt"
	"slices"

	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/weeks"
	"weekband/regions/bands"
)

// Window is one window cut into bands.
type Window struct {
	Field *weeks.Field
	Scale []weeks.Band // the classes of all maps of weeks
	Weeks []weeks.Band // those of the legend: the stretch of scale with ground
	Bands bands.Set    // their ground, and that of never and always

	Early, Late *grid.Raster[float32] // days; nil when not drawn

	Detail               // of pictures
	Areas  ReasonAreas   // of the whole field
	Frames []weeks.Frame // of the series
}

// ReasonAreas is the area of the cells with each reason, km².
type ReasonAreas [len(crossing.Reasons)]float64

// Land is the area of all of them.
func (a ReasonAreas) Land() float64 {
	sum := 0.0
	for _, km2 := range a {
		sum += km2
	}
	return sum
}

// without marks the cells that have normals but no day, by their reason.
func without(f *weeks.Field) *grid.Raster[uint8] {
	class := grid.NewRaster[uint8](f.Grid())
	for cell, reason := range f.Reason.All() {
		if !reason.HasDay() {
			class.Set(cell, uint8(reason))
		}
	}
	return class
}

// traced cuts a field into bands. When early and late years are drawn as well
// all three maps have one scale.
func traced(f *weeks.Field, kinds []recipe.Map, by Detail, kept *keep.Store) (Window, error) {
	d := Window{Field: f, Weeks: f.Bands(), Detail: by, Areas: f.AreaOf(), Frames: f.Frames()}
	if slices.Contains(kinds, recipe.Early) || slices.Contains(kinds, recipe.Late) {
		d.Early, d.Late = earlyLate(f, by.Large)
		d.Scale = f.Scale(d.Early, d.Late)
		d.Weeks, _ = weeks.Shown(d.Scale, f.Day)
	} else {
		d.Scale = d.Weeks
	}
	var err error
	d.Bands, err = CutBands(kept, classed(f, by.Files), 0, weeks.Breaks(d.Weeks), bands.Options{})
	if err != nil {
		return d, fmt.Errorf("window %s: %w", f.Window.ID, err)
	}
	return d, nil
}

// Trace cuts every field into bands.
func Trace(ctx context.Context, fields []*weeks.Field, kinds []recipe.Map, by Detail, kept *keep.Store) ([]Window, error) {
	var out []Window
	for _, f := range fields {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		d, err := traced(f, kinds, by, kept)
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}
