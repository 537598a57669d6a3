package main

import (
	"fmt"
	"strings"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/season"
	"weekband/grid/soil"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render"
	"weekband/render/wording"
)

// measures says what the threshold is compared with: "soil at 4 in (10 cm)".
func measures(r *recipe.Recipe) string {
	words := &r.Language.Sentences.Measured
	switch {
	case r.Normals.Measures == recipe.Air && r.Soil.None:
		return words.Air
	case r.Normals.Measures == recipe.SoilTemp && !r.Soil.Stated:
		return words.Soil
	default:
		return words.SoilAt(r.Soil.Depth)
	}
}

// sure says how sure the days are, in a sentence or two.
func sure(r *recipe.Recipe, in *inputs) string {
	words := &r.Language.Sentences.Sure
	var said []string
	say := func(sentence string) { said = append(said, sentence) }
	switch {
	case r.Normals.Measures == recipe.SoilTemp:
		say(words.OwnSoil)
	case r.Soil.None:
		say(words.AirItself)
	case in.trained == nil:
		say(words.GeneralOffset(soil.DefaultOffset))
	case !in.trained.Reaches(in.normals.Grid().Box()):
		say(words.NoStationNear(soil.DefaultOffset))
	default:
		say(words.Stations(in.trained.Stations()))
	}
	if in.stations != nil {
		say(words.Interpolated(units.Delta(in.stations.All.MAE)))
	}
	if in.sd != nil {
		say(words.OwnSpread)
	} else {
		say(words.UsualSpread(spread.EarlyBy(spread.Default)))
	}
	return strings.Join(said, " ")
}

// lead says what a window's map shows: "Typical week in which soil at 4 in
// (10 cm) warms to 55 °F (12.8 °C)".
func lead(l *wording.Language, w status.Window, what string) string {
	return l.Sentences.Window.Lead(passing(l, w, what))
}

// passing says what happens on the day: "soil at 4 in (10 cm) warms to 55 °F
// (12.8 °C)".
func passing(l *wording.Language, w status.Window, what string) string {
	return l.Together(l.Sentences.Window.Passing(what, w.Trigger))
}

// howSure says how sure a window's map is, "" when nothing is known of it.
func howSure(l *wording.Language, f *weeks.Field) string {
	days := f.Expected()
	if days == 0 {
		return ""
	}
	if beyond := f.Beyond() / f.Land(); beyond > 1-allBeyond && beyond < allBeyond {
		return l.Sentences.Sure.ExpectedMore(days, beyond)
	}
	return l.Sentences.Sure.Expected(days)
}

// shown says what a window's map shows: its range and main pattern, over the
// regions of which at least half has a week.
func shown(l *wording.Language, f *weeks.Field, what string, rows []report.Row) string {
	var first, last *report.Row
	left := 0
	for i := range rows {
		if !rows[i].MostlyDated() {
			left++
			continue
		}
		if first == nil || rows[i].Median < first.Median {
			first = &rows[i]
		}
		if last == nil || rows[i].Median > last.Median {
			last = &rows[i]
		}
	}
	text := l.Sentences.Window.Shaded(lead(l, f.Window, what))
	if first != nil && first != last {
		text += " " + l.Sentences.Window.Range(first.Name, l.Week(first.Median.Week()), last.Name, l.Week(last.Median.Week()))
		if left > 0 {
			text += " " + l.Sentences.Window.LeftOut(left)
		}
	}
	return text
}

// frameAlt describes the picture of one week.
func frameAlt(l *wording.Language, f *weeks.Field, w season.Week) string {
	return fmt.Sprintf("Map of the week of %s: where it is ahead of time, on time or catching up for %s.", l.Week(w), f.Window.Title)
}

// animationAlt describes the moving picture of the weeks and the one week that
// stands in for it.
func animationAlt(l *wording.Language, f *weeks.Field, maps []render.StatusMap, still season.Week) string {
	return fmt.Sprintf("Map of each week%s in turn, or of the week of %s alone: where it is ahead of time, on time or catching up for %s. The sheet above shows the same weeks side by side.", fromTo(maps), l.Week(still), f.Window.Title)
}

// sheetAlt describes the sheet of all weeks.
func sheetAlt(f *weeks.Field, maps []render.StatusMap) string {
	return fmt.Sprintf("Small maps, one for each week%s: where it is ahead of time, on time or catching up for %s.", fromTo(maps), f.Window.Title)
}

// fromTo tells the first and the last week that is drawn.
func fromTo(maps []render.StatusMap) string {
	if len(maps) == 0 {
		return ""
	}
	return fmt.Sprintf(" from %s to %s", maps[0].Week, maps[len(maps)-1].Week)
}
