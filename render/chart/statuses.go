package chart

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/regions/report"
	"weekband/render/wording"
)

// MostRegions is how many regions a heat map shows; of more, as many are
// spread evenly from the earliest to the latest.
const MostRegions = 60

// Heights of the heat map in CSS pixels.
const (
	rowHeight = 17
	heatFrame = 44 // months above the rows, and a little room below
)

// Statuses returns the heat map of what every week is good for in the regions
// of a window, from the earliest to the latest; rows are those of the window.
// Regions in which less than half of the ground has a week are left out, and
// the words say how many. ok is false when that leaves none.
func Statuses(l *wording.Language, rows []report.Row) (c Chart, ok bool) {
	l = l.Or()
	dated := earliestFirst(rows)
	if len(dated) == 0 {
		return Chart{}, false
	}
	shown := spreadEvenly(dated, MostRegions)
	weeks := weeksFrom(startOf(shown))
	height := heatFrame + rowHeight*len(shown)
	c = Chart{
		ID: "statuses-" + rows[0].Window.ID, Title: "What every week is good for, from the earliest region to the latest",
		Alt: l.Together(statusesAlt(l, rows, dated, shown, weeks)), Height: height, Paper: height,
		Key: statusMarks(l, status.All[:]...), Table: statusesTable(l, shown),
	}
	c.Option = heatOption(l, shown, weeks, c.Alt)
	return c, true
}

// earliestFirst returns the rows whose weeks are those of most of the region,
// by their median day.
func earliestFirst(rows []report.Row) []report.Row {
	dated := slices.DeleteFunc(slices.Clone(rows), func(r report.Row) bool { return !r.MostlyDated() })
	slices.SortStableFunc(dated, func(a, b report.Row) int { return cmp.Compare(a.Median, b.Median) })
	return dated
}

// spreadEvenly returns at most so many rows, the first and the last among
// them, in even steps.
func spreadEvenly(rows []report.Row, most int) []report.Row {
	if len(rows) <= most {
		return rows
	}
	var out []report.Row
	for i := range most {
		at := math.Round(float64(i) * float64(len(rows)-1) / float64(most-1))
		out = append(out, rows[int(at)])
	}
	return out
}

// startOf returns the week with which the year of some regions begins.
func startOf(rows []report.Row) season.Week {
	lo, hi := rows[0].Calendar.AheadFrom, rows[0].Calendar.CatchupTo
	for _, r := range rows {
		lo, hi = min(lo, r.Calendar.AheadFrom), max(hi, r.Calendar.CatchupTo)
	}
	return yearStart(lo, hi).Week()
}

// weeksFrom lists the weeks of a year that begins with one of them.
func weeksFrom(first season.Week) []season.Week {
	weeks := []season.Week{first}
	for w := first.Next(); w != first; w = w.Next() {
		weeks = append(weeks, w)
	}
	return weeks
}

// heatOption draws the map as one series of squares for each status: the heat
// maps of the library are painted bit by bit, for which paper does not wait.
func heatOption(l *wording.Language, rows []report.Row, weeks []season.Week, alt string) []byte {
	var squares [len(status.All)][]opts.ScatterData
	var names []string
	for y, r := range rows {
		names = append(names, r.Name)
		for x, w := range weeks {
			s := r.Calendar.Of(w)
			squares[s] = append(squares[s], opts.ScatterData{Value: [2]int{x, y}})
		}
	}
	heat := charts.NewScatter()
	heat.SetXAxis(weeks)
	heat.SetGlobalOptions(
		described(alt), charts.WithAnimation(false), charts.WithGridOpts(opts.Grid{}), charts.WithTooltipOpts(opts.Tooltip{Trigger: "item"}),
		charts.WithXAxisOpts(opts.XAxis{Type: "category", Position: "top"}),
		charts.WithYAxisOpts(opts.YAxis{Type: "category", Data: names, Inverse: opts.Bool(true)}),
	)
	for _, s := range status.All {
		heat.AddSeries(s.ID(), squares[s], charts.WithItemStyleOpts(opts.ItemStyle{Color: "--" + s.ID(), Opacity: opts.Float(1)}),
			charts.WithScatterChartOpts(opts.ScatterChart{Symbol: "rect"}))
	}
	return option(heat, reading{Kind: "statuses", X: "week", Y: "region", Months: l.Dates.Short, Words: statusWords(l)})
}

func statusesTable(l *wording.Language, rows []report.Row) Table {
	t := Table{Head: []string{"Region", title(l.Status(status.Ahead)), title(l.Status(status.OnTime)), title(l.Status(status.CatchingUp))}}
	for _, r := range rows {
		c := r.Calendar
		t.Rows = append(t.Rows, []Field{plain(r.Name), dates(l, c.AheadFrom, c.OntimeFrom), dates(l, c.OntimeFrom, c.OntimeTo), dates(l, c.OntimeTo, c.CatchupTo)})
	}
	return t
}

// statusesAlt says what the heat map shows.
func statusesAlt(l *wording.Language, rows, dated, shown []report.Row, weeks []season.Week) string {
	which := count(len(dated), "region") + ", from the earliest to the latest."
	if len(shown) < len(dated) {
		which = fmt.Sprintf("%d of %d regions, spread evenly from the earliest to the latest.", len(shown), len(dated))
	}
	ontime := func(r report.Row) string {
		return r.Name + ", " + l.Status(status.OnTime) + " " + l.Span(r.Calendar.OntimeFrom, r.Calendar.OntimeTo)
	}
	first, last := shown[0], shown[len(shown)-1]
	ends := "Earliest: " + ontime(first) + "."
	if len(shown) > 1 {
		ends += " Latest: " + ontime(last) + "."
	}
	left := ""
	if n := len(rows) - len(dated); n > 0 {
		left = l.Sentences.Window.LeftOut(n)
	}
	return sentences(which, ends, busiest(l, shown, weeks), left)
}

// busiest tells in which week most regions are on time, the first of equals.
func busiest(l *wording.Language, rows []report.Row, weeks []season.Week) string {
	best, most := weeks[0], 0
	for _, w := range weeks {
		n := 0
		for _, r := range rows {
			if r.Calendar.Of(w) == status.OnTime {
				n++
			}
		}
		if n > most {
			best, most = w, n
		}
	}
	if most < 2 {
		return ""
	}
	return fmt.Sprintf("Most at once, %d of %d, are %s in the week of %s.", most, len(rows), l.Status(status.OnTime), l.Week(best))
}
