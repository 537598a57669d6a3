package main

import (
	"fmt"
	"regexp"
	"strings"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/weeks"
	"weekband/regions/report"
)

// measures says what the threshold is compared with: "soil at 4 in (10 cm)".
func measures(r *recipe.Recipe) string {
	switch {
	case r.Normals.Measures == recipe.Air && r.Soil.None:
		return "air"
	case r.Normals.Measures == recipe.SoilTemp && !r.Soil.Stated:
		return "soil"
	default:
		return fmt.Sprintf("soil at %s (%s)", r.Soil.Depth.Inches(), r.Soil.Depth.Centimetres())
	}
}

// sure says how sure the days are, in a sentence or two.
func sure(r *recipe.Recipe, in *inputs) string {
	var b strings.Builder
	switch {
	case r.Normals.Measures == recipe.SoilTemp:
		b.WriteString("Soil temperatures are the input's own. ")
	case r.Soil.None:
		b.WriteString("Air temperature is mapped as it is; soil differs from it by a week or more. ")
	case in.trained == nil:
		fmt.Fprintf(&b, "Soil is worked out from air with one general offset of %.1f °C that no local thermometer corrected. ", soil.DefaultOffset)
	case !in.trained.Reaches(in.normals.Grid().Box()):
		fmt.Fprintf(&b, "Soil is worked out from air with one general offset of %.1f °C: no station that measures both is near. ", soil.DefaultOffset)
	default:
		fmt.Fprintf(&b, "Soil is worked out from air with what %d stations that measure both tell about the places between them; the expected error of every map comes from how well each of them is foretold by the others. ", in.trained.Stations())
	}
	if in.stations != nil {
		fmt.Fprintf(&b, "Temperatures between stations are interpolated; a station left out is predicted to %.1f °C (%.1f °F) on average. ",
			in.stations.All.MAE, units.Delta(in.stations.All.MAE).Fahrenheit())
	}
	if in.sd != nil {
		b.WriteString("Early and late years follow from the year-to-year standard deviation of the input.")
	} else {
		fmt.Fprintf(&b, "From year to year the day moves: in one year of ten it comes %.0f days earlier or more, in one of ten %.0f days later or more (a usual figure, not measured here).",
			spread.EarlyBy(spread.Default), spread.EarlyBy(spread.Default))
	}
	return b.String()
}

// lead says what a window's map shows: "Typical week in which soil at 4 in
// (10 cm) warms to 55 °F (12.8 °C)".
func lead(w status.Window, what string) string { return "Typical week in which " + passing(w, what) }

// passing says what happens on the day: "soil at 4 in (10 cm) warms to 55 °F
// (12.8 °C)".
func passing(w status.Window, what string) string {
	verb := "warms to"
	if w.Trigger.Direction == crossing.Cooling {
		verb = "cools to"
	}
	return together(fmt.Sprintf("%s %s %s", what, verb, w.Trigger.Level.Both()))
}

// pairs are what should stay on one line: numbers with their units, months
// with their days.
var pairs = regexp.MustCompile(`(\d) (°F|°C|in|cm)|\b([A-Z][a-z]{2}) (\d)`)

// together keeps pairs on one line.
func together(text string) string {
	return pairs.ReplaceAllStringFunc(text, func(pair string) string { return strings.Replace(pair, " ", "\u00a0", 1) })
}

// howSure says how sure a window's map is, "" when nothing is known of it.
func howSure(f *weeks.Field) string {
	days := f.Expected()
	if days == 0 {
		return ""
	}
	text := fmt.Sprintf("The typical week is expected to be off by about %.0f days", days)
	if beyond := f.Beyond() / f.Land(); beyond > 1-allBeyond && beyond < allBeyond {
		text += fmt.Sprintf(", more on the %.0f %% of the land that lies far from soil thermometers", 100*beyond)
	}
	return text + "."
}

// residual says what treatment costs are reckoned for.
func residual(w *status.Window) string {
	t := w.Treatment
	return fmt.Sprintf("Reckoned for a residual that halves in %.0f days in soil of %s and more slowly in colder soil, averaged over early and late years: an illustration, not a product; the label and local trials come before it.",
		t.HalfLife, t.Reference.Both())
}

// altText describes a window's map on a page: what it shows, and where the
// numbers are.
func altText(f *weeks.Field, what string, rows []report.Row) string {
	text := shown(f, what, rows)
	if len(rows) > 0 {
		text += " The table below holds every region."
	}
	return text
}

// shown says what a window's map shows: its range and main pattern.
func shown(f *weeks.Field, what string, rows []report.Row) string {
	var first, last *report.Row
	for i := range rows {
		if !rows[i].Dated {
			continue
		}
		if first == nil || rows[i].Median < first.Median {
			first = &rows[i]
		}
		if last == nil || rows[i].Median > last.Median {
			last = &rows[i]
		}
	}
	text := "Shaded map. " + lead(f.Window, what) + "."
	if first != nil && first != last {
		text += fmt.Sprintf(" Earliest in %s, in the week of %s; latest in %s, in the week of %s.", first.Name, first.Median.Week(), last.Name, last.Median.Week())
	}
	return text
}

// frameAlt describes the picture of one week.
func frameAlt(f *weeks.Field, w season.Week) string {
	return fmt.Sprintf("Map of the week of %s: where it is ahead of time, on time or catching up for %s.", w, f.Window.Title)
}

// animationAlt describes the moving picture of the weeks and the one week that
// stands in for it.
func animationAlt(f *weeks.Field, still season.Week) string {
	return fmt.Sprintf("Map of each week%s in turn, or of the week of %s alone: where it is ahead of time, on time or catching up for %s. The sheet above shows the same weeks side by side.", fromTo(f), still, f.Window.Title)
}

// sheetAlt describes the sheet of all weeks.
func sheetAlt(f *weeks.Field) string {
	return fmt.Sprintf("Small maps, one for each week%s: where it is ahead of time, on time or catching up for %s.", fromTo(f), f.Window.Title)
}

// fromTo tells the first and the last week that is drawn.
func fromTo(f *weeks.Field) string {
	frames := f.Frames()
	if len(frames) == 0 {
		return ""
	}
	return fmt.Sprintf(" from %s to %s", frames[0].Week, frames[len(frames)-1].Week)
}
