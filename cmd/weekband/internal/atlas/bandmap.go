package atlas

import (
	"github.com/paulmach/orb"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/grid/weeks"
	"weekband/regions/bands"
	"weekband/render"
)

// ground cuts a continuous raster into shapes for a picture: it reaches
// beyond the cells that have a value, under whatever limits the land.
func (s *studio) ground(r *grid.Raster[float32], breaks []float64) ([]bands.Band, error) {
	return s.cut(r, tracing.Past, breaks, bands.Options{Outline: 1})
}

// cut cuts a continuous raster into shapes that reach some cells past its own,
// when a press is free.
func (s *studio) cut(r *grid.Raster[float32], reach int, breaks []float64, o bands.Options) ([]bands.Band, error) {
	s.presses <- struct{}{}
	defer func() { <-s.presses }()
	set, err := tracing.CutBands(s.kept, bands.Field{Day: r}, reach, breaks, o)
	return set.Bands, err
}

// below returns the ground on which a continuous raster is under a limit.
func (s *studio) below(r *grid.Raster[float32], limit float64) (orb.MultiPolygon, error) {
	parts, err := s.ground(r, []float64{limit})
	if err != nil || len(parts) == 0 || parts[0].Index != 0 {
		return nil, err
	}
	return parts[0].Shape, nil
}

// bandMap puts the ground and legend of a map of days together: the typical day,
// or that of an early or a late year, in classes of the window's scale.
func (s *studio) bandMap(win tracing.Window, days *grid.Raster[float32], without []render.Undated) (render.BandMap, error) {
	shown, before := weeks.Shown(win.Scale, days)
	m := render.BandMap{Caption: s.caption(win.Field), Scheme: s.recipe.Palette, Undated: without, Before: before, After: len(win.Scale) - before - len(shown)}
	km2, part := weeks.BandAreas(shown, days), tracing.Fair(days, win)
	for i, b := range shown {
		m.Bands = append(m.Bands, render.Band{From: b.From, To: b.To, Label: s.lang.Together(s.lang.Stretch(b.From, b.To, b.OpenBegin, b.OpenEnd)), Share: km2[i] * part / s.land})
	}
	if days == win.Field.Day {
		days = tracing.Pooled(days, win.Detail.Large)
	}
	parts, err := s.ground(days, weeks.Breaks(shown))
	if err != nil {
		return m, err
	}
	for _, part := range parts {
		m.Bands[part.Index].Shape = part.Shape
	}
	m.Uncertain, err = s.beyond(win)
	return m, err
}

// beyond returns the ground beyond the reach of calibration stations, when
// there is other ground too.
func (s *studio) beyond(win tracing.Window) (render.Overlay, error) {
	km2 := win.Field.Beyond()
	if share := km2 / s.land; share == 0 || share > phrase.AllBeyond {
		return render.Overlay{}, nil
	}
	shape, err := s.below(tracing.Pooled(win.Field.Near, win.Detail.Large), weeks.BeyondBelow)
	return render.Overlay{Label: s.lang.Sentences.Sure.Beyond, Shape: shape, Share: km2 / s.land}, err
}

// undated returns the ground without a day, by its reason, in words that suit
// the direction.
func (s *studio) undated(win tracing.Window) ([]render.Undated, error) {
	f, areas := win.Field, win.Areas
	var out []render.Undated
	for _, u := range []struct {
		reason crossing.Reason
		look   render.Reason
	}{{crossing.Flat, render.Flat}, {crossing.Never, render.Never}, {crossing.Always, render.Always}} {
		if areas[u.reason] == 0 {
			continue
		}
		shape, err := s.below(tracing.Margin(f, u.reason, win.Detail.Large), 0)
		if err != nil {
			return nil, err
		}
		out = append(out, render.Undated{Reason: u.look, Label: s.lang.Sentences.Window.Undated(u.reason, f.Window.Trigger.Direction), Shape: shape, Share: areas[u.reason] / s.land})
	}
	return out, nil
}
