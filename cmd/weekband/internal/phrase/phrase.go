package phrase

import (
	"strings"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/soil"
	"weekband/grid/spread"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/grid/weeks"
	"weekband/regions/report"
	"weekband/render/wording"
)

// Measures says what the threshold is compared with: "soil at 4 in (10 cm)".
func Measures(r *recipe.Recipe) string {
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

// Sure says how sure the days are, in a sentence or two.
func Sure(r *recipe.Recipe, in *inputs.Set) string {
	words := &r.Language.Sentences.Sure
	var said []string
	say := func(sentence string) { said = append(said, sentence) }
	switch {
	case r.Normals.Measures == recipe.SoilTemp:
		say(words.OwnSoil)
	case r.Soil.None:
		say(words.AirItself)
	case in.Trained == nil:
		say(words.GeneralOffset(soil.DefaultOffset))
	case !in.Trained.Reaches(in.Normals.Grid().Box()):
		say(words.NoStationNear(soil.DefaultOffset))
	default:
		say(words.Stations(in.Trained.Stations()))
	}
	if in.Stations != nil {
		say(words.Interpolated(units.Delta(in.Stations.All.MAE)))
	}
	if in.SD != nil {
		say(words.OwnSpread)
	} else {
		say(words.UsualSpread(spread.EarlyBy(spread.Default)))
	}
	return strings.Join(said, " ")
}

// Lead says what the map of a window shows, of what is measured: "Typical week in which soil at 4 in
// (10 cm) warms to 55 °F (12.8 °C)".
func Lead(l *wording.Language, w status.Window, what string) string {
	return l.Sentences.Window.Lead(Passing(l, w, what))
}

// Passing says what happens on the day of a window: "soil at 4 in (10 cm) warms to 55 °F
// (12.8 °C)".
func Passing(l *wording.Language, w status.Window, what string) string {
	return l.Together(l.Sentences.Window.Passing(what, w.Trigger))
}

// AllBeyond is the share of the land from which all of it counts as beyond the
// reach of calibration stations.
const AllBeyond = 0.995

// HowSure says how sure a window's map is, "" when nothing is known of it.
func HowSure(l *wording.Language, f *weeks.Field) string {
	days := f.Expected()
	if days == 0 {
		return ""
	}
	if beyond := f.Beyond() / f.Land(); beyond > 1-AllBeyond && beyond < AllBeyond {
		return l.Sentences.Sure.ExpectedMore(days, beyond)
	}
	return l.Sentences.Sure.Expected(days)
}

// Shown says what a window's map shows: its range and main pattern, over the
// regions of which at least half has a week.
func Shown(l *wording.Language, f *weeks.Field, what string, rows []report.Row) string {
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
	text := l.Sentences.Window.Shaded(Lead(l, f.Window, what))
	if first != nil && first != last {
		text += " " + l.Sentences.Window.Range(first.Name, l.Week(first.Median.Week()), last.Name, l.Week(last.Median.Week()))
		if left > 0 {
			text += " " + l.Sentences.Window.LeftOut(left)
		}
	}
	return text
}
