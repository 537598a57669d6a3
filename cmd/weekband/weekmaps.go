package main

import (
	"context"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/weeks"
	"weekband/render"
	"weekband/render/site"
)

// weekSeries is the week maps of a window.
type weekSeries struct {
	maps   []render.StatusMap
	frames []site.Frame
}

// weeks draws the frames of a window, several at a time.
func (s *studio) weeks(ctx context.Context, f *weeks.Field, without []render.Undated) (weekSeries, error) {
	frames := f.Frames()
	out := weekSeries{maps: make([]render.StatusMap, len(frames)), frames: make([]site.Frame, len(frames))}
	err := inTurn(ctx, len(frames), func(i int) (err error) {
		if out.maps[i], err = s.statusMap(f, frames[i], without); err == nil {
			out.frames[i], err = s.frame(f, frames[i].Week, out.maps[i])
		}
		return err
	})
	return out, err
}

// statusMap puts the ground of one week together.
func (s *studio) statusMap(f *weeks.Field, at weeks.Frame, without []render.Undated) (render.StatusMap, error) {
	m := render.StatusMap{Caption: s.caption(f), Week: at.Week.String(), Undated: without}
	stages := f.Stages(at.Middle)
	parts, err := ground(stages, weeks.StageBreaks)
	if err != nil {
		return m, err
	}
	km2 := weeks.StageAreas(stages)
	for _, part := range parts {
		m.Areas = append(m.Areas, render.StatusArea{Status: status.Status(part.Index), Shape: part.Shape, Share: km2[part.Index] / s.land})
	}
	return m, nil
}

// frame draws one week.
func (s *studio) frame(f *weeks.Field, w season.Week, m render.StatusMap) (site.Frame, error) {
	picture, err := s.save(s.frames.Status(m), frameFile(f.Window.ID, w), 1)
	picture.Alt = frameAlt(f, w)
	return site.Frame{Week: w, Picture: picture}, err
}
