package atlas

import (
	"fmt"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/classes"
	"weekband/grid/season"
	"weekband/grid/weeks"
	"weekband/render/wording"
)

// tale is the words of one further map of a window.
type tale struct {
	title   string // on the page
	shows   string // what the map shows, a sentence without its stop
	heading string // of the legend
	unit    string // of values in the alternative text
}

// newTale returns the words of a kind of map on a day on which something
// happens.
func newTale(t wording.Tale, event string) tale {
	return tale{title: t.Title, shows: t.Shows(event), heading: t.Heading, unit: t.Unit}
}

// taleOf returns the words of a kind of map whose maps share them.
func (s *studio) taleOf(kind recipe.Map, f *weeks.Field) tale {
	return newTale(mapKindOf(kind).words(&s.lang.Sentences.Further), phrase.Passing(s.lang, f.Window, phrase.Measures(s.recipe)))
}

// worthTale returns the words of a map of the worth of a week.
func (s *studio) worthTale(w season.Week) tale {
	return newTale(s.lang.Sentences.Further.Worth(s.lang.Together(s.lang.Week(w))), "")
}

// subtitle stands under the title of the map.
func (t tale) subtitle(f *weeks.Field) string { return f.Window.Title + ". " + t.shows + "." }

// alt describes the map: what it is, its range, and where the numbers are.
func (t tale) alt(f *weeks.Field, span string) string {
	text := "Shaded map for " + f.Window.Title + ". " + t.shows + "."
	if span != "" {
		text += " " + span
	}
	return text
}

// weekRange tells the middle nine tenths of days.
func weekRange(l *wording.Language, days *grid.Raster[float32]) string {
	q := classes.Quantiles(days, 0.05, 0.5, 0.95)
	if q == nil {
		return "No ground has such a week."
	}
	week := func(i int) string { return l.Week(season.Day(q[i]).Week()) }
	return fmt.Sprintf("Nine tenths of the ground that has a week lie between the weeks of %s and %s; the middle one is %s. The area of every class is in the legend.", week(0), week(2), week(1))
}

// valueRange tells the middle nine tenths of values, with as many decimals as
// their classes need.
func valueRange(r *grid.Raster[float32], list []classes.Class, unit string) string {
	q := classes.Quantiles(r, 0.05, 0.5, 0.95)
	if q == nil {
		return "No ground has a value."
	}
	d := decimalsOf(list)
	return fmt.Sprintf("Nine tenths of the ground that has a value lie between %.*f and %.*f %s; the middle is %.*f. The area of every class is in the legend.", d, q[0], d, q[2], unit, d, q[1])
}

// decimalsOf returns how many decimals tell classes apart: none where they are 1
// wide or wider.
func decimalsOf(list []classes.Class) (decimals int) {
	edges := classes.Breaks(list)
	if len(edges) < 2 {
		return 0
	}
	for width := edges[1] - edges[0]; width < 0.999 && decimals < 3; width *= 10 {
		decimals++
	}
	return decimals
}
