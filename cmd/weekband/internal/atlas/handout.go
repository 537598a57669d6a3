package atlas

import (
	"cmp"
	"context"
	"io"
	"slices"
	"strings"

	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/daychart"
	"weekband/render/press"
	"weekband/render/wording"
)

// handouts writes a window's handout and those of its regions, and returns the
// files of these by the id of their region.
func (s *studio) handouts(ctx context.Context, f *weeks.Field, m render.BandMap, rows []report.Row) (map[string]string, error) {
	page, err := s.frames.Handout(s.handout(f, m, rows))
	if err != nil {
		return nil, err
	}
	what := press.Description{Title: s.lang.Sentences.HandoutTitle(f.Window.Title), Desc: m.Subtitle, Lang: s.lang.Tag}
	if err := s.sheetOfPaper(page.Page, HandoutFile(f.Window.ID), what); err != nil {
		return nil, err
	}
	return s.regionSheets(ctx, f, m, rows)
}

// sheetOfPaper writes a page to print as PDF.
func (s *studio) sheetOfPaper(page *press.Page, name string, d press.Description) error {
	return s.encode(name, func(w io.Writer) error { return page.PDF(w, s.recipe.Paper, d) })
}

// handout puts a window's handout together.
func (s *studio) handout(f *weeks.Field, m render.BandMap, rows []report.Row) render.Handout {
	h := render.Handout{Map: m, Guide: s.lang.Sentences.Window.Guide(f.Window.Trigger.Level), Sure: s.sure, Address: s.recipe.Address}
	h.Map.Cautions = s.lang.Sentences.Cautions
	// The expected error stands beside the map already.
	if s.expected != "" {
		h.Map.Source = strings.Replace(h.Map.Source, s.expected+" ", "", 1)
		h.Sure = s.expected + " " + h.Sure
	}
	if s.recipe.Address != "" {
		h.Map.Source += s.lang.Sentences.HasMaps(s.recipe.Address) + " "
	}
	parted := false
	for _, r := range handoutOrder(rows) {
		row := handoutRow(s.lang, &r)
		parted = parted || row.Part != ""
		h.Rows = append(h.Rows, row)
	}
	words := &s.lang.Sentences.Window
	if parted {
		h.Guide = append(h.Guide, words.Parted)
	}
	if k := f.Window.Seeding; k != nil {
		h.Guide = append(h.Guide, words.Seeding(s.lang.Date(k.Day), s.lang.Date(k.LastDay())))
	}
	return h
}

// handoutRow is the strip of a region, words in its place when less than half
// of its ground has a week.
func handoutRow(l *wording.Language, r *report.Row) daychart.CalendarRow {
	share := l.Percent(r.Shares.DatedShare)
	switch {
	case !r.MostlyDated():
		return daychart.CalendarRow{Name: r.Name, Words: weekless(l, r)}
	case !r.DatedThroughout():
		return daychart.CalendarRow{Name: r.Name, Calendar: r.Calendar, Part: share}
	}
	return daychart.CalendarRow{Name: r.Name, Calendar: r.Calendar}
}

// weekless says why the region of a row has no weeks of its own: none of its
// ground has any, or little.
func weekless(l *wording.Language, r *report.Row) string {
	if r.Dated {
		return l.Sentences.Window.Part(l.Percent(r.Shares.DatedShare))
	}
	return l.Sentences.Window.NoWeek(report.Why(r.Shares))
}

// handoutOrder returns rows by name, or, when they are more than a page holds, from
// the earliest to the latest, behind them those without weeks of their own.
func handoutOrder(rows []report.Row) []report.Row {
	behind := func(r *report.Row) int {
		if r.MostlyDated() {
			return 0
		}
		return 1
	}
	return slices.SortedStableFunc(slices.Values(rows), func(a, b report.Row) int {
		name := strings.Compare(a.Name, b.Name)
		if len(rows) <= render.MostRows {
			return name
		}
		return cmp.Or(behind(&a)-behind(&b), cmp.Compare(a.Median, b.Median), name)
	})
}
