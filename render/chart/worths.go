package chart

import (
	"fmt"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"weekband/grid/crossing"
	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/worth"
	"weekband/regions/report"
	"weekband/render/wording"
)

// class is one line of the chart of worth.
type class struct {
	look      string // its class in the style sheet
	name      string
	line      string // how it is drawn
	treatment worth.Treatment
	own       bool
	weeks     []float64 // worth in the middle of each week, 0 to 1
}

// named writes the class with its half-life: "medium residual (60 days)".
func (c class) named() string {
	return fmt.Sprintf("%s residual (%.0f days)", c.name, c.treatment.HalfLife)
}

// Worth returns the chart of what an application in each week would still stop
// in a region, for a short, a medium and a long residual and the window's own
// when it is none of these. ok is false without a typical year.
func Worth(l *wording.Language, r *report.Row) (c Chart, ok bool) {
	l = l.Or()
	if r.Soil == nil {
		return Chart{}, false
	}
	w := worths{Row: r, lang: l, classes: classesOf(r.Window.Treatment), weeks: worthWeeks(r.Calendar)}
	w.reckon()
	c = Chart{
		ID: "worth-" + r.Window.ID, Title: "What an application would still stop, week by week", Alt: l.Together(w.alt()), Height: 320, Paper: paperHeight,
		Note:  l.Sentences.Window.Residual(r.Window.Treatment) + " " + l.Sentences.Caution,
		Table: w.table(),
	}
	for _, k := range w.classes {
		mark := Mark{Class: k.look, Words: k.named()}
		if k.own {
			mark.Class, mark.Words = k.look+" own", mark.Words+", the one the weeks are reckoned for"
		}
		c.Key = append(c.Key, mark)
	}
	c.Key = append(c.Key, Mark{Class: "stretch", Words: l.Status(status.OnTime)})
	c.Option = w.option(c.Alt)
	return c, true
}

// classesOf returns the classes of half-lives, all as fast in warm soil as the
// window's own treatment, and that one among them or behind them.
func classesOf(own worth.Treatment) []class {
	classes := []class{
		{look: "short", name: "short", line: "dotted"}, {look: "medium", name: "medium", line: "solid"}, {look: "long", name: "long", line: "dashed"},
	}
	among := false
	for i, half := range []float64{worth.Short, worth.Medium, worth.Long} {
		k := &classes[i]
		k.treatment = own
		k.treatment.HalfLife = half
		k.own = half == own.HalfLife
		among = among || k.own
	}
	if !among {
		classes = append(classes, class{look: "other", name: "this map's", line: "solid", treatment: own, own: true})
	}
	return classes
}

// Stretch of weeks shown around a calendar, in days.
const (
	worthBefore = 56
	worthAfter  = 14
)

// worthWeeks returns the middles of the weeks from eight before ahead of time
// to two after catching up, unwrapped, at most a year of them.
func worthWeeks(c status.Calendar) []season.Day {
	var weeks []season.Day
	from := c.AheadFrom - worthBefore
	day := from + season.Day(from.In().Week().Middle()-from.In())
	for len(weeks) < season.Weeks && day < c.CatchupTo+worthAfter {
		weeks = append(weeks, day)
		next := day.Week().Next()
		day += season.Day(day.DaysTo(next.Middle()))
	}
	return weeks
}

// worths is the worth of the weeks of a region.
type worths struct {
	*report.Row
	lang    *wording.Language
	classes []class
	weeks   []season.Day
}

// reckon works out the worth of every week and class.
func (w *worths) reckon() {
	var s worth.Season
	trigger, onset := w.Window.Trigger, w.Calendar.OntimeTo
	origin := crossing.Find(w.Soil, trigger).Origin
	for i := range w.classes {
		k := &w.classes[i]
		s.FillWith(w.Soil, trigger, origin, k.treatment, w.Doubt)
		for _, day := range w.weeks {
			k.weeks = append(k.weeks, s.At(origin.DaysTo(onset)+float64(day-onset)))
		}
	}
}

func (w *worths) option(alt string) []byte {
	first, last := w.weeks[0], w.weeks[len(w.weeks)-1]
	line := charts.NewLine()
	line.SetGlobalOptions(
		described(alt), charts.WithAnimation(false), charts.WithGridOpts(opts.Grid{}), charts.WithTooltipOpts(opts.Tooltip{Trigger: "axis"}),
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: float64(first), Max: float64(last)}), charts.WithYAxisOpts(opts.YAxis{Type: "value", Min: 0}),
	)
	var words []string
	for i, k := range w.classes {
		var data [][2]float64
		for j, day := range w.weeks {
			data = append(data, point(float64(day), 100*k.weeks[j], 1))
		}
		look := opts.LineStyle{Color: "--chart-" + k.look, Width: 2.5, Type: k.line}
		if k.own {
			look.Width = 4
		}
		more := []charts.SeriesOpts{charts.WithLineChartOpts(opts.LineChart{ShowSymbol: opts.Bool(false)}), charts.WithLineStyleOpts(look)}
		if i == 0 {
			more = append(more, charts.WithMarkAreaData(stretch(w.Calendar)), charts.WithMarkAreaStyleOpts(opts.MarkAreaStyle{
				Label: &opts.Label{Show: opts.Bool(false)}, ItemStyle: &opts.ItemStyle{Color: "--chart-stretch"},
			}))
		}
		addLine(line, k.look, data, more...)
		words = append(words, k.named())
	}
	return option(line, reading{
		Kind: "worth", X: "day", Y: "share", Months: w.lang.Dates.Short, Statuses: statusWords(w.lang), Calendar: days(w.Calendar), Words: words,
	})
}

// stretch marks on time.
func stretch(c status.Calendar) []opts.MarkAreaData {
	return []opts.MarkAreaData{{XAxis: rounded(float64(c.OntimeFrom), 2)}, {XAxis: rounded(float64(c.OntimeTo), 2)}}
}

func (w *worths) table() Table {
	t := Table{Head: []string{"Week"}}
	for _, k := range w.classes {
		t.Head = append(t.Head, title(k.named()))
	}
	t.Head = append(t.Head, "Status")
	for j, day := range w.weeks {
		fields := []Field{week(w.lang, day.Week())}
		for _, k := range w.classes {
			fields = append(fields, plain(percent(k.weeks[j])))
		}
		t.Rows = append(t.Rows, append(fields, plain(w.lang.Status(w.Calendar.At(day)))))
	}
	return t
}

// alt says what the chart shows: the best week of each class, and the middle
// of on time.
func (w *worths) alt() string {
	var best, ontime []string
	c := w.Calendar
	middle := (c.OntimeFrom + c.OntimeTo) / 2
	for _, k := range w.classes {
		at := 0
		for j, share := range k.weeks {
			if share > k.weeks[at] {
				at = j
			}
		}
		best = append(best, fmt.Sprintf("%s with a %s, in the week of %s", percent(k.weeks[at]), k.named(), w.lang.Week(w.weeks[at].Week())))
		ontime = append(ontime, percent(k.weeks[w.nearest(middle)]))
	}
	return sentences(ground(w.lang, w.Row,
		fmt.Sprintf("At best an application in %s stops this share of the season's weeds: %s.", w.Name, strings.Join(best, "; ")),
		fmt.Sprintf("In the middle of %s, %s, it is %s.", w.lang.Status(status.OnTime), w.lang.Week(middle.Week()), among(ontime)),
	)...)
}

// nearest returns the index of the week whose middle lies nearest to a moment.
func (w *worths) nearest(d season.Day) int {
	at := 0
	for j, day := range w.weeks {
		if (day-d)*(day-d) < (w.weeks[at]-d)*(w.weeks[at]-d) {
			at = j
		}
	}
	return at
}
