package main

import (
	"context"
	"fmt"

	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/wording"
)

// mostSheets is how many regions get a handout of their own unless the recipe
// asks for all.
const mostSheets = 100

// regionSheets writes the handouts of the regions of a window and returns their
// files by the id of the region. Regions without a week have none.
func (s *studio) regionSheets(ctx context.Context, f *weeks.Field, m render.BandMap, rows []report.Row) (map[string]string, error) {
	if len(rows) > mostSheets && !s.recipe.AllHandouts {
		return nil, nil
	}
	files := map[string]string{}
	for i := range rows {
		if rows[i].Soil != nil {
			files[rows[i].ID] = s.regionFile(f, &rows[i])
		}
	}
	return files, inTurn(ctx, len(rows), func(i int) error {
		name, wanted := files[rows[i].ID]
		if !wanted {
			return nil
		}
		page, err := s.frames.RegionSheet(s.regionSheet(f, m, i, &rows[i]))
		if err != nil {
			return fmt.Errorf("handout of %s: %w", rows[i].Name, err)
		}
		what := render.Description{Title: s.lang.Sentences.Titled(rows[i].Name, f.Window.Title), Desc: m.Subtitle, Lang: s.lang.Tag}
		return s.sheetOfPaper(page, name, what)
	})
}

func (s *studio) regionFile(f *weeks.Field, r *report.Row) string {
	return "handouts/" + s.slugs[r.ID] + "-" + f.Window.ID + ".pdf"
}

// regionSheet puts the handout of a region together; region is its index.
func (s *studio) regionSheet(f *weeks.Field, m render.BandMap, region int, r *report.Row) render.RegionSheet {
	c := s.caption(f)
	sheet := render.RegionSheet{
		Caption: c, Map: m, Shape: s.in.areas.Regions[region].Shape, Guide: s.lang.Sentences.Region.Guide(f.Window.Trigger.Level), Sure: s.sure, Address: s.recipe.Address,
		Soil: render.SoilYear{
			Days: r.Soil[:], Spread: r.Envelope(), Threshold: f.Window.Trigger.Level, Calendar: r.Calendar,
		},
		Chart: s.lang.Sentences.Region.Chart(measures(s.recipe)),
		Facts: facts(s.lang, f, r),
	}
	sheet.Title = r.Name
	sheet.Subtitle = fmt.Sprintf("%s. %s.", s.recipe.Title, f.Window.Title)
	sheet.Cautions = s.lang.Sentences.Cautions[:4]
	return sheet
}

// facts lists what a region's handout says in numbers.
func facts(l *wording.Language, f *weeks.Field, r *report.Row) []render.Fact {
	early, late := r.Years()
	c := r.Calendar
	words := &l.Sentences.Region
	list := []render.Fact{
		{Label: lead(l, f.Window, l.Sentences.Measured.Soil), Value: l.Week(r.Median.Week()), Best: true},
		{Label: words.OnTime, Value: l.Span(c.OntimeFrom, c.OntimeTo), Best: true},
		{Label: words.Ahead, Value: l.Span(c.AheadFrom, c.OntimeFrom)},
		{Label: words.CatchingUp, Value: l.Span(c.OntimeTo, c.CatchupTo)},
		{Label: words.EarlyLate, Value: words.BeforeAfter(l.Date(early), l.Date(late))},
		{Label: words.Tenths, Value: words.FromTo(l.Date(r.P10), l.Date(r.P90))},
	}
	if r.Error > 0 {
		list = append(list, render.Fact{Label: words.Error, Value: words.AboutDays(r.Error)})
	}
	if v := r.Value; v != nil {
		k := &v.Costs
		list = append(list, render.Fact{
			Label: words.Worth, Value: words.Shares([4]float64{k.AheadFrom.Worth, k.OntimeFrom.Worth, k.OntimeTo.Worth, k.TwoWeeksLate.Worth}),
		})
		if v.SecondDue {
			list = append(list, render.Fact{Label: words.SecondDue, Value: l.Week(v.Second.Week())})
		}
	}
	return list
}
