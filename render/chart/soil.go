package chart

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/grid/units"
	"weekband/regions/report"
	"weekband/render/wording"
)

// soilStep is how many days lie between the points of the curve.
const soilStep = 5

// Soil returns the chart of a region's typical year: the curve, what eight
// years in ten keep to, the threshold, and the statuses below. measured is what
// the curve measures, "soil at 4 in (10 cm)". ok is false without a year.
func Soil(l *wording.Language, r *report.Row, measured string) (c Chart, ok bool) {
	l = l.Or()
	if r.Soil == nil {
		return Chart{}, false
	}
	y := soilYear{Row: r, lang: l, usual: r.Envelope(), start: yearStart(r.Calendar.AheadFrom, r.Calendar.CatchupTo)}
	c = Chart{
		ID: "soil-" + r.Window.ID, Title: "The typical year of " + measured, Alt: l.Together(y.alt(measured)), Height: 340, Paper: paperHeight,
		Key: append([]Mark{
			{Class: "curve", Words: "typical year"}, {Class: "envelope", Words: "eight years in ten"},
			{Class: "level", Words: "threshold, " + r.Window.Trigger.Level.Both()},
		}, statusMarks(l, status.Ahead, status.OnTime, status.CatchingUp)...),
		Table: y.table(),
	}
	c.Option = y.option(c.Alt)
	return c, true
}

// soilYear is a region's typical year from a moment on.
type soilYear struct {
	*report.Row
	lang  *wording.Language
	usual units.Delta
	start season.Day
}

func (y soilYear) option(alt string) []byte {
	var curve, low, width [][2]float64
	for i := 0; i <= season.YearDays; i += soilStep {
		d := y.start + season.Day(i)
		t := y.Soil.At(d)
		curve = append(curve, point(float64(d), t, 2))
		low = append(low, point(float64(d), t-float64(y.usual), 2))
		width = append(width, point(float64(d), 2*float64(y.usual), 2))
	}
	none, begin, end := opts.Bool(false), float64(y.start), float64(y.start)+season.YearDays
	line := charts.NewLine()
	line.ExtendXAxis(opts.XAxis{Type: "value", GridIndex: 1, Min: begin, Max: end})
	line.ExtendYAxis(opts.YAxis{Type: "value", GridIndex: 1, Min: -1, Max: 1, Show: none})
	line.SetGlobalOptions(
		described(alt), charts.WithAnimation(false), charts.WithGridOpts(opts.Grid{}, opts.Grid{}),
		charts.WithTooltipOpts(opts.Tooltip{Trigger: "axis"}),
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Min: begin, Max: end}), charts.WithYAxisOpts(opts.YAxis{Type: "value", Scale: opts.Bool(true)}),
	)
	edge := opts.LineStyle{Color: "--chart-edge", Width: 1}
	plain := charts.WithLineChartOpts(opts.LineChart{ShowSymbol: none, Stack: "usual"})
	// The script stacks them whatever their signs, for which go-echarts has no word.
	addLine(line, "low", low, plain, charts.WithLineStyleOpts(edge))
	addLine(line, "width", width, plain, charts.WithLineStyleOpts(edge), charts.WithAreaStyleOpts(opts.AreaStyle{Color: "--chart-envelope", Opacity: opts.Float(1)}))
	addLine(line, "curve", curve, charts.WithLineChartOpts(opts.LineChart{ShowSymbol: none}),
		charts.WithLineStyleOpts(opts.LineStyle{Color: "--chart-curve", Width: 2.5}),
		charts.WithMarkLineNameYAxisItemOpts(opts.MarkLineNameYAxisItem{YAxis: rounded(float64(y.Window.Trigger.Level), 4)}),
		charts.WithMarkLineStyleOpts(opts.MarkLineStyle{Symbol: []string{"none", "none"}, LineStyle: &opts.LineStyle{Color: "--chart-level", Width: 2, Type: "solid"}}))
	y.statuses(line)
	return option(line, reading{
		Kind: "soil", X: "day", Y: "temperature", Months: y.lang.Dates.Short, Statuses: statusWords(y.lang), Calendar: days(y.Calendar),
		Words: []string{"typical year", "eight years in ten"},
	})
}

// statuses draws the stretches as bars below the curve, on time thicker, so
// that the picture reads without colour.
func (y soilYear) statuses(line *charts.Line) {
	c := y.Calendar
	for _, s := range []struct {
		status   status.Status
		from, to season.Day
		width    float32
	}{{status.Ahead, c.AheadFrom, c.OntimeFrom, 9}, {status.OnTime, c.OntimeFrom, c.OntimeTo, 18}, {status.CatchingUp, c.OntimeTo, c.CatchupTo, 9}} {
		for _, piece := range y.pieces(s.from, s.to) {
			addLine(line, s.status.ID(), [][2]float64{point(float64(piece[0]), 0, 0), point(float64(piece[1]), 0, 0)},
				charts.WithLineChartOpts(opts.LineChart{ShowSymbol: opts.Bool(false), XAxisIndex: 1, YAxisIndex: 1}),
				charts.WithLineStyleOpts(opts.LineStyle{Color: "--" + s.status.ID(), Width: s.width}))
		}
	}
}

// pieces returns where a stretch lies in the chart's year, in two pieces when
// it passes the end.
func (y soilYear) pieces(from, to season.Day) [][2]season.Day {
	end := y.start + season.YearDays
	begin := inYear(from, y.start)
	stop := begin + min(to-from, season.YearDays)
	switch {
	case stop <= begin:
		return nil
	case stop <= end:
		return [][2]season.Day{{begin, stop}}
	}
	return [][2]season.Day{{y.start, stop - season.YearDays}, {begin, end}}
}

func (y soilYear) table() Table {
	t := Table{Head: []string{"Week", "Typical", "Eight years in ten from", "to", "Status"}}
	for _, w := range weeksFrom(y.start.Week()) {
		typical := units.Celsius(y.Soil.At(w.Middle()))
		t.Rows = append(t.Rows, []Field{
			week(y.lang, w), warm(typical), warm(typical.Add(-y.usual)), warm(typical.Add(y.usual)), plain(y.lang.Status(y.Calendar.Of(w))),
		})
	}
	return t
}

// alt says what the chart shows.
func (y soilYear) alt(measured string) string {
	c, l := y.Calendar, y.lang
	early, late := y.Years()
	coldest, warmest := y.extremes()
	return sentences(ground(l, y.Row,
		fmt.Sprintf("In %s %s typically in the week of %s, in an early year (one in ten) about %s, in a late one about %s.",
			y.Name, l.Sentences.Window.Passing(measured, y.Window.Trigger), l.Week(y.Median.Week()), l.Date(early), l.Date(late)),
		fmt.Sprintf("It is coldest about %s, %s, and warmest about %s, %s.",
			l.Date(coldest), warmth(units.Celsius(y.Soil.At(coldest))), l.Date(warmest), warmth(units.Celsius(y.Soil.At(warmest)))),
		fmt.Sprintf("Eight years in ten keep within %s of that.", warmer(y.usual)),
		fmt.Sprintf("%s: %s; %s: %s; %s: %s.", title(l.Status(status.Ahead)), l.Span(c.AheadFrom, c.OntimeFrom),
			l.Status(status.OnTime), l.Span(c.OntimeFrom, c.OntimeTo), l.Status(status.CatchingUp), l.Span(c.OntimeTo, c.CatchupTo)),
	)...)
}

// extremes returns the first of the coldest and of the warmest days.
func (y soilYear) extremes() (coldest, warmest season.Day) {
	coldest, warmest = 1, 1
	for i := range y.Soil {
		switch d := season.Day(i + 1); {
		case y.Soil[i] < y.Soil.At(coldest):
			coldest = d
		case y.Soil[i] > y.Soil.At(warmest):
			warmest = d
		}
	}
	return coldest, warmest
}
