package main

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

// drawing is one window cut into bands.
type drawing struct {
	field *weeks.Field
	scale []weeks.Band // the classes of all maps of weeks
	weeks []weeks.Band // those of the legend: the stretch of scale with ground
	bands bands.Set    // their ground, and that of never and always

	early, late *grid.Raster[float32] // days; nil when not drawn

	detail               // of pictures
	areas  reasonAreas   // of the whole field
	frames []weeks.Frame // of the series
}

// reasonAreas is the area of the cells with each reason, km².
type reasonAreas [len(crossing.Reasons)]float64

// land is the area of all of them.
func (a reasonAreas) land() float64 {
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
func traced(f *weeks.Field, kinds []recipe.Map, by detail, kept *keep.Store) (drawing, error) {
	d := drawing{field: f, weeks: f.Bands(), detail: by, areas: f.AreaOf(), frames: f.Frames()}
	if slices.Contains(kinds, recipe.Early) || slices.Contains(kinds, recipe.Late) {
		d.early, d.late = earlyLate(f, by.large)
		d.scale = f.Scale(d.early, d.late)
		d.weeks, _ = weeks.Shown(d.scale, f.Day)
	} else {
		d.scale = d.weeks
	}
	var err error
	d.bands, err = cutBands(kept, classed(f, by.files), 0, weeks.Breaks(d.weeks), bands.Options{})
	if err != nil {
		return d, fmt.Errorf("window %s: %w", f.Window.ID, err)
	}
	return d, nil
}

// trace cuts every field into bands.
func trace(ctx context.Context, fields []*weeks.Field, kinds []recipe.Map, by detail, kept *keep.Store) ([]drawing, error) {
	var out []drawing
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
