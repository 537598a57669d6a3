package main

import (
	"context"
	"fmt"
	"math"
	"strings"

	"weekband/grid/season"
	"weekband/grid/spread"
	"weekband/grid/units"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/caution"
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
		what := render.Description{Title: rows[i].Name + ": " + f.Window.Title, Desc: m.Subtitle}
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
		Caption: c, Map: m, Region: region, Guide: regionGuide(f), Sure: s.sure, Address: s.recipe.Address,
		Soil: render.SoilYear{
			Days: r.Soil[:], Spread: usualYears(r), Threshold: f.Window.Trigger.Level, Calendar: r.Calendar,
		},
		Chart: fmt.Sprintf("%s in a typical year, and the band of eight years in ten", capital(measures(s.recipe))),
		Facts: facts(f, r),
	}
	sheet.Title = r.Name
	sheet.Subtitle = fmt.Sprintf("%s. %s.", s.recipe.Title, f.Window.Title)
	sheet.Cautions = caution.All[:4]
	return sheet
}

// usualYears is how far from the typical year eight in ten keep, in kelvins: as
// far as the crossing of an early and a late year says at the slope there.
func usualYears(r *report.Row) units.Delta {
	slope := (r.Soil.At(r.Median+1) - r.Soil.At(r.Median-1)) / 2
	return units.Delta(math.Abs(slope) * spread.EarlyBy(r.Doubt))
}

// regionGuide says in three sentences how to read a region's handout.
func regionGuide(f *weeks.Field) []string {
	return []string{
		"The red line on the map is the region; the shades are the typical weeks of all.",
		fmt.Sprintf("The curve passes %s at the dot, the end of on time; where the band does so, an early and a late year do.", f.Window.Trigger.Level.Both()),
		"On time is the stretch to aim for; ahead of time much of the strength lasts; catching up still stops the weeds that are not up.",
	}
}

func capital(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

// facts lists what a region's handout says in numbers.
func facts(f *weeks.Field, r *report.Row) []render.Fact {
	by := season.Day(spread.EarlyBy(r.Doubt))
	c := r.Calendar
	list := []render.Fact{
		{Label: lead(f.Window, "soil"), Value: r.Median.Week().String(), Best: true},
		{Label: "On time", Value: season.Span(c.OntimeFrom, c.OntimeTo), Best: true},
		{Label: "Ahead of time", Value: season.Span(c.AheadFrom, c.OntimeFrom)},
		{Label: "Catching up", Value: season.Span(c.OntimeTo, c.CatchupTo)},
		{Label: "An early and a late year, one in ten each", Value: fmt.Sprintf("before %v, after %v", (r.Median - by).In(), (r.Median + by).In())},
		{Label: "Eight tenths of the region's ground cross from", Value: fmt.Sprintf("%s to %s", r.P10.In(), r.P90.In())},
	}
	if r.Error > 0 {
		list = append(list, render.Fact{Label: "Expected error of the typical week", Value: fmt.Sprintf("about %.0f days", r.Error)})
	}
	if v := r.Value; v != nil {
		list = append(list, render.Fact{
			Label: "Weeds an application would still stop, as ahead of time begins, as on time begins, as it ends and two weeks later",
			Value: fmt.Sprintf("%s, %s, %s, %s", percent(v.Costs.AheadFrom.Worth), percent(v.Costs.OntimeFrom.Worth), percent(v.Costs.OntimeTo.Worth), percent(v.Costs.TwoWeeksLate.Worth)),
		})
		if v.SecondDue {
			list = append(list, render.Fact{Label: "A second application is due about", Value: v.Second.In().Week().String()})
		}
	}
	return list
}
