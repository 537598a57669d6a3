package main

import (
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/caution"
)

// handouts writes a window's handout and those of its regions, and returns the
// files of these by the id of their region.
func (s *studio) handouts(ctx context.Context, f *weeks.Field, m render.BandMap, rows []report.Row) (map[string]string, error) {
	page, err := s.frames.Handout(s.handout(f, m, rows))
	if err != nil {
		return nil, err
	}
	what := render.Description{Title: "Handout: " + f.Window.Title, Desc: m.Subtitle}
	if err := s.sheetOfPaper(page, handoutFile(f.Window.ID), what); err != nil {
		return nil, err
	}
	return s.regionSheets(ctx, f, m, rows)
}

// sheetOfPaper writes a page to print as PDF.
func (s *studio) sheetOfPaper(page *render.Page, name string, d render.Description) error {
	return s.encode(name, func(w io.Writer) error { return page.PDF(w, s.recipe.Paper, d) })
}

// handout puts a window's handout together.
func (s *studio) handout(f *weeks.Field, m render.BandMap, rows []report.Row) render.Handout {
	h := render.Handout{Map: m, Guide: guide(f), Sure: s.sure, Address: s.recipe.Address}
	h.Map.Cautions = caution.All[:4]
	// The expected error stands beside the map already.
	if sure := howSure(f); sure != "" {
		h.Map.Source = strings.Replace(h.Map.Source, sure+" ", "", 1)
		h.Sure = sure + " " + h.Sure
	}
	if s.recipe.Address != "" {
		h.Map.Source += s.recipe.Address + " has the maps and tables. "
	}
	for _, r := range handoutOrder(rows) {
		h.Rows = append(h.Rows, render.CalendarRow{Name: r.Name, Calendar: r.Calendar, Words: report.Undated(r.Shares)})
	}
	return h
}

// handoutOrder returns rows by name, or, when they are more than a page holds, from
// the earliest to the latest.
func handoutOrder(rows []report.Row) []report.Row {
	return slices.SortedStableFunc(slices.Values(rows), func(a, b report.Row) int {
		if len(rows) > render.MostRows {
			return cmp.Or(cmp.Compare(a.Median, b.Median), strings.Compare(a.Name, b.Name))
		}
		return strings.Compare(a.Name, b.Name)
	})
}

// guide says in three sentences how to read a handout.
func guide(f *weeks.Field) []string {
	level := f.Window.Trigger.Level.Both()
	return []string{
		fmt.Sprintf("The map shades the typical week in which the soil passes %s; find your place and its colour.", level),
		"On time is the stretch to aim for; ahead of time is early, yet much of the strength lasts; catching up still stops the weeds that are not up.",
		"A warm or cold year moves all of it by two weeks or more: check your own soil before you act.",
	}
}
