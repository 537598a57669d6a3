package atlas

import (
	"context"
	"strings"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/abreast"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/press"
	"weekband/render/site"
)

// window draws the pictures of one window.
func (s *studio) window(ctx context.Context, win tracing.Window, rows []report.Row) (Pictures, error) {
	f := win.Field
	s.land, s.expected = win.Areas.Land(), phrase.HowSure(s.lang, f)
	without, err := s.undated(win)
	if err != nil {
		return Pictures{}, err
	}
	m, err := s.bandMap(win, f.Day, without)
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
		func() (err error) { out.Weeks, err = s.weeks(ctx, win, without); return err },
		func() (err error) { out.Handouts, err = s.handouts(ctx, f, m, rows); return err },
		func() (err error) { out.More, err = s.further(ctx, win, m); return err },
	)
	if err != nil {
		return out, err
	}
	err = s.sheets(f, &out)
	out.Weeks.maps = nil // their shapes take much memory, and are drawn
	return out, err
}

// sheets draws the week maps of a window side by side, large and for phones.
func (s *studio) sheets(f *weeks.Field, out *Pictures) error {
	return abreast.AtOnce(
		func() (err error) {
			out.Sheet, err = s.sheet(s.large, f, out.Weeks, sheetFile(f.Window.ID))
			return err
		},
		func() (err error) {
			out.NarrowSheet, err = s.sheet(s.narrow, f, out.Weeks, narrowSheetFile(f.Window.ID))
			return err
		},
	)
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

// weekCaption holds the words around the maps of single weeks.
func (s *studio) weekCaption(f *weeks.Field) press.Caption {
	c := s.caption(f)
	end := phrase.Passing(s.lang, f.Window, phrase.Measures(s.recipe))
	c.Subtitle = f.Window.Title + ". " + s.lang.Sentences.Window.OneWeek(end) + "."
	return c
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
	picture, err := s.save(atlas.Sheet(s.weekCaption(f), series.maps), name, tracing.MapScale)
	picture.Alt = sheetAlt(f, series.maps)
	return picture, err
}
