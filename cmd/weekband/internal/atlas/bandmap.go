package atlas

import (
	"context"
	"strings"

	"github.com/paulmach/orb"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/abreast"
	"weekband/grid/crossing"
	"weekband/grid/weeks"
	"weekband/regions/bands"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/press"
	"weekband/render/site"
)

// window draws the pictures of one window.
func (s *studio) window(ctx context.Context, d tracing.Window, rows []report.Row) (Pictures, error) {
	f := d.Field
	s.land, s.expected = d.Areas.Land(), phrase.HowSure(s.lang, f)
	without, err := s.undated(d)
	if err != nil {
		return Pictures{}, err
	}
	m, err := s.bandMap(d, f.Day, without)
	if err != nil {
		return Pictures{}, err
	}
	grey := m
	grey.Grey = true
	out := Pictures{shaded: m}
	err = abreast.AtOnce(
		func() (err error) { out.Main, err = s.mainPicture(f, m, rows); return err },
		func() (err error) {
			out.Wide, out.sight.wide, err = s.screenPicture(s.page, m, wideFile(f.Window.ID))
			return err
		},
		func() (err error) {
			out.Narrow, out.sight.narrow, err = s.screenPicture(s.narrow, m, narrowFile(f.Window.ID))
			return err
		},
		func() (err error) { out.Grey, err = s.greyPicture(grey, greyFile(f.Window.ID)); return err },
		func() (err error) { out.Weeks, err = s.weeks(ctx, d, without); return err },
		func() (err error) { out.Handouts, err = s.handouts(ctx, f, m, rows); return err },
		func() (err error) { out.More, err = s.further(ctx, d, m); return err },
	)
	if err != nil {
		return out, err
	}
	err = abreast.AtOnce(
		func() (err error) {
			out.Sheet, err = s.sheet(s.large, f, out.Weeks, sheetFile(f.Window.ID))
			return err
		},
		func() (err error) {
			out.NarrowSheet, err = s.sheet(s.narrow, f, out.Weeks, narrowSheetFile(f.Window.ID))
			return err
		},
	)
	out.Weeks.maps = nil // their shapes take much memory, and are drawn
	return out, err
}

// caption holds the words around a window's pictures.
func (s *studio) caption(f *weeks.Field) press.Caption {
	c := press.Caption{
		Title:    s.recipe.Title,
		Subtitle: f.Window.Title + ". " + phrase.Lead(s.lang, f.Window, phrase.Measures(s.recipe)) + ".",
		Source:   s.lang.Sentences.Edition(s.recipe.Edition, s.recipe.Normals.Period) + " ",
		Cautions: []string{s.lang.Sentences.Caution},
		Logo:     s.in.Logo,
	}
	if s.expected != "" {
		c.Source += s.expected + " "
	}
	if s.recipe.Credits != "" {
		c.Source += strings.TrimSuffix(s.recipe.Credits, ".") + ". "
	}
	return c
}

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

// bandMap puts the ground and legend of a map of days together: the typical
// day or another day of the drawing's scale.
func (s *studio) bandMap(d tracing.Window, days *grid.Raster[float32], without []render.Undated) (render.BandMap, error) {
	shown, before := weeks.Shown(d.Scale, days)
	m := render.BandMap{Caption: s.caption(d.Field), Season: s.recipe.Palette, Undated: without, Before: before, After: len(d.Scale) - before - len(shown)}
	km2, part := weeks.BandAreas(shown, days), tracing.Fair(days, d)
	for i, b := range shown {
		m.Bands = append(m.Bands, render.Band{From: b.From, To: b.To, Label: s.lang.Together(s.lang.Stretch(b.From, b.To, b.OpenBegin, b.OpenEnd)), Share: km2[i] * part / s.land})
	}
	if days == d.Field.Day {
		days = tracing.Pooled(days, d.Large)
	}
	parts, err := s.ground(days, weeks.Breaks(shown))
	if err != nil {
		return m, err
	}
	for _, part := range parts {
		m.Bands[part.Index].Shape = part.Shape
	}
	m.Uncertain, err = s.beyond(d)
	return m, err
}

// beyond returns the ground beyond the reach of calibration stations, when
// there is other ground too.
func (s *studio) beyond(d tracing.Window) (render.Overlay, error) {
	km2 := d.Field.Beyond()
	if share := km2 / s.land; share == 0 || share > phrase.AllBeyond {
		return render.Overlay{}, nil
	}
	shape, err := s.below(tracing.Pooled(d.Field.Near, d.Large), weeks.BeyondBelow)
	return render.Overlay{Label: s.lang.Sentences.Sure.Beyond, Shape: shape, Share: km2 / s.land}, err
}

// undated returns the ground without a day, by its reason, in words that suit
// the direction.
func (s *studio) undated(d tracing.Window) ([]render.Undated, error) {
	f, areas := d.Field, d.Areas
	var out []render.Undated
	for _, u := range []struct {
		reason crossing.Reason
		look   render.Reason
	}{{crossing.Flat, render.Flat}, {crossing.Never, render.Never}, {crossing.Always, render.Always}} {
		if areas[u.reason] == 0 {
			continue
		}
		shape, err := s.below(tracing.Margin(f, u.reason, d.Large), 0)
		if err != nil {
			return nil, err
		}
		out = append(out, render.Undated{Reason: u.look, Label: s.lang.Sentences.Window.Undated(u.reason, f.Window.Trigger.Direction), Shape: shape, Share: areas[u.reason] / s.land})
	}
	return out, nil
}

// greyPicture draws a window's map for copiers.
func (s *studio) greyPicture(m render.BandMap, name string) (site.Picture, error) {
	page, err := s.large.Bands(m)
	if err != nil {
		return site.Picture{}, err
	}
	return s.savePrint(page.Page, name)
}

// screenPicture draws a map for the pages, and tells what it shows where.
func (s *studio) screenPicture(atlas *render.Atlas, m render.BandMap, name string) (site.Picture, render.Sight, error) {
	page, err := atlas.Bands(m)
	if err != nil {
		return site.Picture{}, render.Sight{}, err
	}
	picture, err := s.saveScreen(page.Page, name)
	return picture, page.Sight(), err
}

// sheet writes all weeks of a window, small, as one picture.
func (s *studio) sheet(atlas *render.Atlas, f *weeks.Field, series WeekSeries, name string) (site.Picture, error) {
	picture, err := s.save(atlas.Sheet(s.caption(f), series.maps), name, tracing.MapScale)
	picture.Alt = sheetAlt(f, series.maps)
	return picture, err
}
