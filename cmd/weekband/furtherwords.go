package main

import (
	"fmt"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/classes"
	"weekband/grid/season"
	"weekband/grid/weeks"
)

// tale is the words of one further map.
type tale struct {
	title   string // on the page
	shows   string // what the map shows, a sentence without its stop
	heading string // of the legend
	unit    string // of values in the alternative text
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

// yearTale is the words of an early or late year's map.
func yearTale(kind recipe.Map, f *weeks.Field, what string) tale {
	year, often := "an early year", "one year in ten is as early or earlier"
	t := tale{title: "An early year", heading: "Week of an early year"}
	if kind == recipe.Late {
		year, often = "a late year", "one year in ten is as late or later"
		t = tale{title: "A late year", heading: "Week of a late year"}
	}
	t.title += ": " + often
	t.shows = fmt.Sprintf("Week in which %s in %s (one of ten)", passing(f.Window, what), year)
	return t
}

// daysTale is the words of a map of spread or error.
func daysTale(kind recipe.Map, f *weeks.Field, what string) tale {
	event := passing(f.Window, what)
	if kind == recipe.Spread {
		return tale{title: "How far the day moves from year to year", heading: "Standard deviation, days", unit: "days",
			shows: "Standard deviation, from year to year, of the day on which " + event}
	}
	return tale{title: "How far off the typical day may be", heading: "Expected error, days", unit: "days",
		shows: "Expected error of the typical day on which " + event}
}

// worthTale is the words of a map of worth.
func worthTale(w season.Week) tale {
	week := together(w.String())
	return tale{title: "What an application in the week of " + week + " would still stop", heading: "Percent of the season’s weeds", unit: "percent",
		shows: "Share of the season’s weeds that an application in the week of " + week + " would still stop: little where it is too late, and where it is too early"}
}

// weekRange tells the middle nine tenths of days.
func weekRange(days *grid.Raster[float32]) string {
	q := classes.Quantiles(days, 0.05, 0.5, 0.95)
	if q == nil {
		return "No ground has such a week."
	}
	week := func(i int) season.Week { return season.Day(q[i]).Week() }
	return fmt.Sprintf("Nine tenths of the ground that has a week lie between the weeks of %s and %s; the middle one is %s. The area of every class is in the legend.", week(0), week(2), week(1))
}

// valueRange tells the middle nine tenths of values.
func valueRange(r *grid.Raster[float32], unit string) string {
	q := classes.Quantiles(r, 0.05, 0.5, 0.95)
	if q == nil {
		return "No ground has a value."
	}
	return fmt.Sprintf("Nine tenths of the ground that has a value lie between %.0f and %.0f %s; the middle is %.0f. The area of every class is in the legend.", q[0], q[2], unit, q[1])
}
