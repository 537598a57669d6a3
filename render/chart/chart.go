package chart

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/render/wording"
)

// Chart is one chart of a page.
type Chart struct {
	ID     string // of its element, unique among the charts of an edition's region or index
	Title  string
	Alt    string // what it shows, in sentences
	Note   string // what to heed, in sentences; "" for nothing
	Height int    // of the picture, CSS pixels
	Paper  int    // its height on a printed sheet, CSS pixels
	Key    []Mark // what colours and lines stand for
	Table  Table
	// Option is the chart's data and looks, as JSON. Colours are names of
	// custom properties of a style sheet, "--ontime". The member "weekband"
	// tells the script of the pages what the axes measure.
	Option json.RawMessage
}

// Mark is an entry of a chart's key; Class names its look in the style sheet.
type Mark struct{ Class, Words string }

// paperHeight is the height of most charts on paper, so that two fit a sheet
// with their words.
const paperHeight = 240

// reading is what the script needs to write a chart's numbers: the kind of
// chart and what its axes measure.
type reading struct {
	Kind     string      `json:"kind"`
	X        string      `json:"x"`
	Y        string      `json:"y"`
	Months   [12]string  `json:"months"`             // short names, January first
	Statuses []string    `json:"statuses,omitempty"` // words, in the order of status.All
	Calendar *[4]float64 `json:"calendar,omitempty"` // days of one place, unwrapped
	Words    []string    `json:"words,omitempty"`    // of the tooltip, in the order of the series
}

// optioned is a chart of the library.
type optioned interface {
	Validate()
	JSON() map[string]any
}

// option writes the options of a chart of the library, without what the pages
// write themselves.
func option(c optioned, r reading) json.RawMessage {
	c.Validate()
	m := c.JSON()
	for _, unused := range []string{"title", "legend", "toolbox", "color"} {
		delete(m, unused)
	}
	m["weekband"] = r
	text, err := json.Marshal(m)
	if err != nil {
		panic(fmt.Sprintf("chart: %v", err)) // a number that is none: presence lives in rasters
	}
	return text
}

// described returns the option that gives a chart its text alternative.
func described(alt string) charts.GlobalOpts {
	return charts.WithAriaOpts(&opts.Aria{Enabled: opts.Bool(true), Label: &opts.AriaLabel{Enabled: opts.Bool(true), Description: alt}})
}

// point is a pair of coordinates, rounded so that a page stays small.
func point(x, y float64, decimals int) [2]float64 {
	return [2]float64{rounded(x, 2), rounded(y, decimals)}
}

// rounded rounds half away from zero, without "-0".
func rounded(v float64, decimals int) float64 {
	scale := math.Pow(10, float64(decimals))
	return math.Round(v*scale)/scale + 0
}

// dataOf is the data of a series of points, as go-echarts writes them; hundreds of
// them a chart are not worth an object each.
func dataOf(points [][2]float64) json.RawMessage {
	b := append(make([]byte, 0, 32*len(points)+2), '[')
	for i, p := range points {
		if i > 0 {
			b = append(b, ',')
		}
		b = strconv.AppendFloat(append(b, `{"value":[`...), p[0], 'f', -1, 64)
		b = append(strconv.AppendFloat(append(b, ','), p[1], 'f', -1, 64), "]}"...)
	}
	return append(b, ']')
}

// addLine adds a series of points to a chart.
func addLine(c *charts.Line, name string, points [][2]float64, how ...charts.SeriesOpts) {
	c.AddSeries(name, nil, how...)
	c.MultiSeries[len(c.MultiSeries)-1].Data = dataOf(points)
}

// days returns the four days of a calendar.
func days(c status.Calendar) *[4]float64 {
	return &[4]float64{
		rounded(float64(c.AheadFrom), 2), rounded(float64(c.OntimeFrom), 2), rounded(float64(c.OntimeTo), 2), rounded(float64(c.CatchupTo), 2),
	}
}

// yearStart returns the moment at which a chart's year begins, so that the
// stretches from lo to hi, unwrapped, are not torn: 1 January unless they pass
// New Year; else the beginning of a week up to four weeks before lo, or half
// of what is quiet when that is less.
func yearStart(lo, hi season.Day) season.Day {
	if lo >= 1 && hi <= 1+season.YearDays {
		return 1
	}
	quiet := max(season.YearDays-float64(hi-lo), 0)
	start := lo - season.Day(min(28, quiet/2))
	return start - (start.In() - start.In().Week().Begin())
}

// inYear returns the moment of d's year that lies in [start, start+365).
func inYear(d, start season.Day) season.Day { return start + season.Day(start.DaysTo(d)) }

// statusMarks is the key of some statuses.
func statusMarks(l *wording.Language, which ...status.Status) []Mark {
	var marks []Mark
	for _, s := range which {
		marks = append(marks, Mark{Class: s.ID(), Words: l.Status(s)})
	}
	return marks
}

// statusWords returns the words of all statuses.
func statusWords(l *wording.Language) []string {
	var words []string
	for _, s := range status.All {
		words = append(words, l.Status(s))
	}
	return words
}

// sentences joins the sentences that are not empty.
func sentences(list ...string) string {
	var said []string
	for _, s := range list {
		if s != "" {
			said = append(said, s)
		}
	}
	return strings.Join(said, " ")
}
