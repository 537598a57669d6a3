package atlas

import (
	"context"

	"weekband/cmd/weekband/internal/tracing"
	"weekband/regions/report"
	"weekband/render"
)

// Pictures of every window: the map as PNG, SVG and PDF, wide, narrow and grey,
// two sheets of weeks, the handout.
const picturesOfWindow = 9

// count returns how many pictures draw draws, to tell how far it is. A test
// holds it to what is drawn.
func (s *studio) count(ctx context.Context, drawings []tracing.Window, rows []report.Row) int {
	n := 1 // the edition's card
	forAll := func(regions int) bool { return regions <= mostSheets || s.recipe.AllHandouts }
	if areas := len(s.in.Areas.Regions); forAll(areas) {
		n += areas
	}
	for _, d := range drawings {
		n += picturesOfWindow + len(s.jobs(ctx, d, render.BandMap{}))
		if frames := len(d.Frames); frames > 0 {
			n += frames + 1 // and the animation
		}
		own := report.Of(rows, d.Field.Window.ID)
		if !forAll(len(own)) {
			continue
		}
		for i := range own {
			if own[i].Soil != nil {
				n++
			}
		}
	}
	return n
}
