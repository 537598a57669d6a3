package chart

import (
	"fmt"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/weeks"
	"weekband/render/wording"
)

// Relation returns the chart of the crossing day of cells of a window against
// their elevation, or against latitude when terrain, in m, is nil or covers
// none of them. ok is false with fewer than two classes of either.
func Relation(l *wording.Language, f *weeks.Field, terrain *grid.Raster[float32]) (c Chart, ok bool) {
	l = l.Or()
	r := relation{field: f, lang: l, measure: elevation}
	if terrain != nil {
		r.cells = sample(f, func(at grid.Cell) (float64, bool) { return heightOf(terrain, f.Grid().Bounds(at)) })
		r.classes = classify(r.cells, elevation.widths)
	}
	if len(r.classes) < 2 {
		r.measure = latitude
		r.cells = sample(f, func(at grid.Cell) (float64, bool) { return f.Grid().Center(at).Lat, true })
		r.classes = classify(r.cells, latitude.widths)
	}
	if len(r.classes) < 2 {
		return Chart{}, false
	}
	c = Chart{
		ID: r.measure.name + "-" + f.Window.ID, Title: "The typical day by " + r.measure.name, Alt: l.Together(r.alt()), Height: 360, Paper: paperHeight,
		Key:   []Mark{{Class: "dot", Words: fmt.Sprintf("one of %d cells of the map", len(r.cells))}, {Class: "median", Words: "middle of the cells of a class"}},
		Table: r.table(),
	}
	c.Option = r.option(c.Alt)
	return c, true
}

// measure is what the crossing day is set against.
type measure struct {
	name   string
	widths []float64                     // of classes, from narrow to wide
	span   func(from, to float64) string // of a class
	rate   func(days, over float64) string
}

var elevation = measure{
	name: "elevation", widths: []float64{10, 20, 50, 100, 200, 500, 1000}, // m
	span: func(from, to float64) string {
		return fromTo(tens(from/metresPerFoot), tens(to/metresPerFoot)) + " ft (" + fromTo(from, to) + " m)"
	},
	rate: func(days, over float64) string {
		return perStep(days, over, 1000*metresPerFoot, "1,000 ft", "upward") + " (" + perStep(days, over, 100, "100 m", "upward") + ")"
	},
}

var latitude = measure{
	name: "latitude", widths: []float64{0.1, 0.2, 0.5, 1, 2, 5, 10}, // degrees
	span: func(from, to float64) string { return degrees(from) + " to " + degrees(to) },
	rate: func(days, over float64) string { return perStep(days, over, 1, "degree", "northward") },
}

// tens rounds to whole tens.
func tens(v float64) float64 { return rounded(v, -1) }

// metresPerFoot is exact (ISO 31-1).
const metresPerFoot = 0.3048

// degrees writes a latitude.
func degrees(lat float64) string {
	if lat < 0 {
		return fmt.Sprintf("%g° S", rounded(-lat, 1))
	}
	return fmt.Sprintf("%g° N", rounded(lat, 1))
}

// perStep writes a change of days over a distance as one per step.
func perStep(days, over, step float64, words, way string) string {
	change := days * step / over
	later := "later"
	if change < 0 {
		change, later = -change, "earlier"
	}
	return fmt.Sprintf("%.1f days %s for each %s %s", change, later, words, way)
}

// relation is cells of a map and their classes.
type relation struct {
	field   *weeks.Field
	lang    *wording.Language
	measure measure
	cells   []placed
	classes []stratum
}

func (r relation) option(alt string) []byte {
	var dots []opts.ScatterData
	for _, c := range r.cells {
		dots = append(dots, opts.ScatterData{Value: point(c.at, c.day, 1)})
	}
	var line []opts.LineData
	for _, s := range r.classes {
		line = append(line, opts.LineData{Value: point(s.middle, s.median, 1)})
	}
	scale := opts.Bool(true)
	scatter := charts.NewScatter()
	scatter.SetGlobalOptions(
		described(alt), charts.WithAnimation(false), charts.WithGridOpts(opts.Grid{}), charts.WithTooltipOpts(opts.Tooltip{Trigger: "item"}),
		charts.WithXAxisOpts(opts.XAxis{Type: "value", Scale: scale}), charts.WithYAxisOpts(opts.YAxis{Type: "value", Scale: scale}),
	)
	scatter.AddSeries("cells", dots, charts.WithItemStyleOpts(opts.ItemStyle{Color: "--chart-dot", Opacity: opts.Float(0.45)}),
		charts.WithScatterChartOpts(opts.ScatterChart{SymbolSize: 5}))
	median := charts.NewLine()
	median.AddSeries("median", line, charts.WithLineStyleOpts(opts.LineStyle{Color: "--chart-median", Width: 3}),
		charts.WithItemStyleOpts(opts.ItemStyle{Color: "--chart-median"}),
		charts.WithLineChartOpts(opts.LineChart{Symbol: "circle", SymbolSize: 7, ShowSymbol: opts.Bool(true)}))
	scatter.Overlap(median)
	return option(scatter, reading{
		Kind: "relation", X: r.measure.name, Y: "day", Months: r.lang.Dates.Short, Words: []string{"cell", "middle of a class"},
	})
}

func (r relation) table() Table {
	t := Table{Head: []string{title(r.measure.name), "Cells", "Typical week, in the middle", "Eight cells in ten"}}
	for _, s := range r.classes {
		low, high := season.Day(s.low), season.Day(s.high)
		t.Rows = append(t.Rows, []Field{
			plain(r.measure.span(s.from, s.to)), counted(s.count), week(r.lang, season.Day(s.median).Week()), dates(r.lang, low, high+1),
		})
	}
	return t
}

// alt says what the chart shows.
func (r relation) alt() string {
	first, last := r.classes[0], r.classes[len(r.classes)-1]
	tell := func(s stratum) string {
		return fmt.Sprintf("%s the typical week is that of %s", r.measure.span(s.from, s.to), r.lang.Week(season.Day(s.median).Week()))
	}
	early, late := r.cells[0], r.cells[0]
	for _, c := range r.cells {
		if c.day < early.day {
			early = c
		}
		if c.day > late.day {
			late = c
		}
	}
	return sentences(
		fmt.Sprintf("At %s, at %s: %s.", tell(first), tell(last), r.measure.rate(last.median-first.median, last.middle-first.middle)),
		fmt.Sprintf("Of %d cells spread over the map the earliest crosses about %s, the latest about %s.",
			len(r.cells), r.lang.Date(season.Day(early.day)), r.lang.Date(season.Day(late.day))),
	)
}
