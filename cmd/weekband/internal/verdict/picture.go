package verdict

import (
	"fmt"
	"io"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid/agreement"
	"weekband/grid/season"
	"weekband/render/daychart"
	"weekband/render/lookup"
	"weekband/render/press"
)

// verdictWidth is the width of a picture of a verdict, in px before
// MapScale.
const verdictWidth = 1200

// Draw draws how thermometers agree with the map of the first window into a
// file. It returns an error when no place has a year to compare.
func (a *Verdicts) Draw(file string) error {
	e, v := a.edition, &a.list[0]
	words := &e.Words.Sentences
	chart := daychart.Agreement{Language: e.Words, Caption: press.Caption{
		Title:    words.Verdict.Title,
		Subtitle: fmt.Sprintf("%s. %s.", e.Title, phrase.Lead(e.Words, v.maps[0].Window, e.Measures)),
		Source:   words.Edition(e.Index.Edition, e.Period) + " " + words.Verdict.Method,
		Cautions: []string{words.Caution},
	}}
	for i := range v.places {
		if p := &v.places[i]; len(p.Years) > 0 {
			chart.Points = append(chart.Points, point(p, &v.maps[i]))
		}
	}
	if len(chart.Points) == 0 {
		return fmt.Errorf("%s: no thermometer tells the day of a year for %s, so there is nothing to draw; readings are needed on both sides of the threshold", file, v.window.Title)
	}
	page, err := chart.Page(verdictWidth)
	if err != nil {
		return fmt.Errorf("%s: %w", file, err)
	}
	return publish.File(file, func(w io.Writer) error { return page.PNG(w, tracing.MapScale) })
}

// point is a place on the picture, its days unwrapped like the map's.
func point(p *agreement.Place, a *lookup.Answer) daychart.AgreementPoint {
	shift := a.Day - p.Crossing.Day // whole years, and what rounding left of it
	if p.Log.Depth > 0 {
		shift = season.YearDays * season.Day(int(float64(shift)/season.YearDays))
	}
	out := daychart.AgreementPoint{
		Name: p.Log.Name, Typical: p.Crossing.Day + shift, Early: p.Early + shift, Late: p.Late + shift,
		Measured: p.Median + shift, Low: p.Median + shift, High: p.Median + shift,
		Years: len(p.Years), Doubtful: a.Beyond,
	}
	for _, y := range p.Years {
		out.Low, out.High = min(out.Low, y.Day+shift), max(out.High, y.Day+shift)
	}
	return out
}
