package atlas

import (
	"context"
	"io"
	"time"

	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/abreast"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/render"
	"weekband/render/press"
	"weekband/render/site"
)

// How long a week shows in the animation, and the last one before it begins
// again.
const (
	weekShows = 500 * time.Millisecond
	lastShows = 3 * time.Second
)

// WeekSeries is the week maps of a window.
type WeekSeries struct {
	Frames    []site.Frame    // one a week; none when no ground has a week
	Animation *site.Animation // of all frames, nil without them

	maps []render.StatusMap // what the frames show, until the sheets are drawn
}

// weeks draws the frames of a window, several at a time, and the animation
// made of them.
func (s *studio) weeks(ctx context.Context, win tracing.Window, without []render.Undated) (WeekSeries, error) {
	f, frames := win.Field, win.Frames
	if len(frames) == 0 {
		return WeekSeries{}, nil
	}
	own, wide := tracing.Staged(f, win.Detail.Frames)
	out := WeekSeries{maps: make([]render.StatusMap, len(frames)), Frames: make([]site.Frame, len(frames))}
	pages := make([]*press.Page, len(frames))
	err := abreast.InTurn(ctx, len(frames), func(i int) (err error) {
		if out.maps[i], err = s.statusMap(win, own, wide, frames[i], without); err == nil {
			pages[i] = s.frames.Status(out.maps[i]).Page
		}
		return err
	})
	if err != nil {
		return out, err
	}
	series, err := press.NewSeries(pages, 1)
	if err != nil {
		return out, err
	}
	still := best(out.maps)
	err = abreast.InTurn(ctx, len(frames)+1, func(i int) (err error) {
		if i == 0 { // takes longest
			out.Animation, err = s.animation(f, out.maps, frames[still].Week, series)
			return err
		}
		out.Frames[i-1], err = s.frame(f, frames[i-1].Week, series, i-1)
		s.in.Say.Did(1)
		return err
	})
	if err == nil {
		out.Animation.Still = out.Frames[still]
	}
	return out, err
}

// best returns the week in which most ground is on time.
func best(maps []render.StatusMap) int {
	at, most := 0, 0.0
	for i, m := range maps {
		for _, a := range m.Areas {
			if a.Status == status.OnTime && a.Share > most {
				at, most = i, a.Share
			}
		}
	}
	return at
}

// statusMap puts the ground of one week together. The stages of own tell how
// much there is, those of wide its shapes.
func (s *studio) statusMap(win tracing.Window, own, wide *weeks.Field, at weeks.Frame, without []render.Undated) (render.StatusMap, error) {
	m := render.StatusMap{Caption: s.weekCaption(win.Field), Week: s.lang.Week(at.Week), Undated: without}
	parts, err := s.cut(wide.Stages(at.Middle), 0, weeks.StageBreaks, win.Detail.Lines())
	if err != nil {
		return m, err
	}
	stages := own.Stages(at.Middle)
	km2, whole := weeks.StageAreas(stages), tracing.Fair(stages, win)
	for _, part := range parts {
		m.Areas = append(m.Areas, render.StatusArea{Status: status.Status(part.Index), Shape: part.Shape, Share: km2[part.Index] * whole / s.land})
	}
	return m, nil
}

// frame writes the picture of one week, the i-th of the series.
func (s *studio) frame(f *weeks.Field, w season.Week, series *press.Series, i int) (site.Frame, error) {
	picture := site.Picture{File: frameFile(f.Window.ID, w), Alt: frameAlt(s.lang, f, w)}
	size := series.Size()
	picture.Width, picture.Height = size.X, size.Y
	return site.Frame{Week: w, Picture: picture}, publish.Create(s.root, picture.File, func(w io.Writer) error { return series.PNG(w, i) })
}

// animation writes all weeks as one moving picture, for which one week may
// stand in.
func (s *studio) animation(f *weeks.Field, maps []render.StatusMap, still season.Week, series *press.Series) (*site.Animation, error) {
	a := &site.Animation{Picture: site.Picture{File: animationFile(f.Window.ID), Alt: animationAlt(s.lang, f, maps, still)}}
	size := series.Size()
	a.Width, a.Height = size.X, size.Y
	defer s.in.Say.Did(1)
	return a, publish.Create(s.root, a.File, func(w io.Writer) error { return series.GIF(w, weekShows, lastShows) })
}
