package atlas

import (
	"context"
	"fmt"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/grid/abreast"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/daychart"
	"weekband/render/press"
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
	return files, abreast.InTurn(ctx, len(rows), func(i int) error {
		name, wanted := files[rows[i].ID]
		if !wanted {
			return nil
		}
		page, err := s.frames.RegionSheet(s.regionSheet(f, m, i, &rows[i]))
		if err != nil {
			return fmt.Errorf("handout of %s: %w", rows[i].Name, err)
		}
		what := press.Description{Title: s.lang.Sentences.Titled(rows[i].Name, f.Window.Title), Desc: m.Subtitle, Lang: s.lang.Tag}
		return s.sheetOfPaper(page.Page, name, what)
	})
}

func (s *studio) regionFile(f *weeks.Field, r *report.Row) string {
	return "handouts/" + s.slugs[r.ID] + "-" + f.Window.ID + ".pdf"
}

// regionSheet puts the handout of a region together; region is its index.
func (s *studio) regionSheet(f *weeks.Field, m render.BandMap, region int, r *report.Row) render.RegionSheet {
	c := s.caption(f)
	sheet := render.RegionSheet{
		Caption: c, Map: m, Shape: s.in.Areas.Regions[region].Shape, Guide: s.lang.Sentences.Region.Guide(f.Window.Trigger.Level), Sure: s.sure, Address: s.recipe.Address,
		Soil: daychart.SoilYear{
			Days: r.Soil[:], Spread: r.Envelope(), Threshold: f.Window.Trigger.Level, Calendar: r.Calendar,
		},
		Chart: s.lang.Sentences.Region.Chart(phrase.Measures(s.recipe)),
		Facts: facts(s.lang, f, r),
	}
	sheet.Title = r.Name
	sheet.Subtitle = fmt.Sprintf("%s. %s.", s.recipe.Title, f.Window.Title)
	sheet.Cautions = s.lang.Sentences.Cautions
	return sheet
}

// facts lists what a region's handout says in numbers: first how much of the
// ground it holds for when that is less than half, last when it is not all.
func facts(l *wording.Language, f *weeks.Field, r *report.Row) []render.Fact {
	list := append(weekFacts(l, f, r), worthFacts(l, r)...)
	if r.DatedThroughout() {
		return list
	}
	words := &l.Sentences.Region
	part := render.Fact{Label: words.Holds, Value: words.HoldsFor(l.Percent(r.Shares.DatedShare)), Best: !r.MostlyDated()}
	if r.MostlyDated() {
		return append(list, part)
	}
	return append([]render.Fact{part}, list...)
}

// weekFacts tells the weeks of a region and how far they may be off.
func weekFacts(l *wording.Language, f *weeks.Field, r *report.Row) []render.Fact {
	early, late := r.Years()
	c := r.Calendar
	words := &l.Sentences.Region
	list := []render.Fact{
		{Label: phrase.Lead(l, f.Window, l.Sentences.Measured.Soil), Value: l.Week(r.Median.Week()), Best: true},
		{Label: words.OnTime, Value: l.Span(c.OntimeFrom, c.OntimeTo), Best: true},
		{Label: words.Ahead, Value: l.Span(c.AheadFrom, c.OntimeFrom)},
		{Label: words.CatchingUp, Value: l.Span(c.OntimeTo, c.CatchupTo)},
		{Label: words.EarlyLate, Value: words.BeforeAfter(l.Date(early), l.Date(late))},
		{Label: words.Tenths, Value: words.FromTo(l.Date(r.P10), l.Date(r.P90))},
	}
	if r.Error > 0 {
		list = append(list, render.Fact{Label: words.Error, Value: words.AboutDays(r.Error)})
	}
	return list
}

// worthFacts tells what applications come to in a region, and what seeding
// grass leaves open.
func worthFacts(l *wording.Language, r *report.Row) []render.Fact {
	v, words := r.Value, &l.Sentences.Region
	if v == nil {
		return nil
	}
	k := &v.Costs
	list := []render.Fact{{
		Label: words.Worth, Value: words.Shares([4]float64{k.AheadFrom.Worth, k.OntimeFrom.Worth, k.OntimeTo.Worth, k.TwoWeeksLate.Worth}),
	}}
	if v.SecondDue {
		list = append(list, render.Fact{Label: words.SecondDue, Value: l.Week(v.Second.Week())})
	}
	if s := v.Seeding; s != nil {
		ontime := float64(r.Calendar.OntimeTo - r.Calendar.OntimeFrom)
		list = append(list, render.Fact{
			Label: words.Seeding(l.Date(r.Window.Seeding.Day)), Value: words.SeedingLast(l.Date(s.ClosedFrom), s.OntimeLost, ontime),
		})
	}
	return list
}
