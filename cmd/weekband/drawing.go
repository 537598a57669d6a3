package main

import (
	"context"
	"fmt"

	"weekband/grid"
	"weekband/grid/weeks"
	"weekband/regions/bands"
)

// drawing is one window cut into bands.
type drawing struct {
	field *weeks.Field
	weeks []weeks.Band // the classes of the legend
	bands bands.Set    // their ground, and that of never and always
}

// classes marks the cells that have normals but no day, by their reason.
func classes(f *weeks.Field) *grid.Raster[uint8] {
	class := grid.NewRaster[uint8](f.Grid())
	for cell, reason := range f.Reason.All() {
		if !reason.HasDay() {
			class.Set(cell, uint8(reason))
		}
	}
	return class
}

// traced cuts a field into bands.
func traced(f *weeks.Field) (drawing, error) {
	d := drawing{field: f, weeks: f.Bands()}
	var err error
	d.bands, err = bands.Trace(bands.Field{Day: f.Day, Class: classes(f)}, weeks.Breaks(d.weeks), bands.Options{})
	if err != nil {
		return d, fmt.Errorf("window %s: %w", f.Window.ID, err)
	}
	return d, nil
}

// trace cuts every field into bands.
func trace(ctx context.Context, fields []*weeks.Field) ([]drawing, error) {
	var out []drawing
	for _, f := range fields {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		d, err := traced(f)
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}
