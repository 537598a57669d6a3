package main

import (
	"strings"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/soil"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/weeks"
	"weekband/regions/report"
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

// allBeyond is the share of the land from which all of it counts as beyond the
// reach of calibration stations.
const allBeyond = 0.995

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
