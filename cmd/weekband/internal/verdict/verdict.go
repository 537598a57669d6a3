package verdict

import (
	"errors"
	"fmt"
	"strings"

	"weekband/grid/agreement"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/soil"
	"weekband/grid/units"
	"weekband/render/lookup"
	"weekband/render/tables"
	"weekband/render/wording"
)

// verdict is how logs agree with the map of one window.
type verdict struct {
	window lookup.Window
	places []agreement.Place
	maps   []lookup.Answer // what the map says of each place
	off    int             // logs that lie off the map
}

// compare compares all logs with the map of a window; answers are what the
// edition says of every log's place, window by window.
func compare(e *lookup.Edition, window int, logs []agreement.Log, answers [][]lookup.Answer) (verdict, error) {
	v := verdict{window: e.Windows[window]}
	for i := range logs {
		a := &answers[i][window]
		var year curve.Year
		if !a.Year(&year) {
			v.off++
			continue
		}
		if depth := logs[i].Depth; depth > 0 {
			to := soil.NewConduction(units.Metres(e.Depth), depth, soil.DefaultDiffusivity)
			to.Apply(&year)
		}
		v.places = append(v.places, agreement.Compare(&logs[i], agreement.Map{Year: &year, Trigger: a.Window.Trigger, Spread: a.Spread, Error: a.Error}))
		v.maps = append(v.maps, *a)
	}
	if len(v.places) == 0 {
		return v, errors.New("none of the thermometers lies on the map; are lat and lon right, north and east positive?")
	}
	return v, nil
}

func (v *verdict) write(b *strings.Builder, l *wording.Language, period string) {
	verb := "warming to"
	if v.window.Direction == crossing.Cooling {
		verb = "cooling to"
	}
	fmt.Fprintf(b, "%s, %s %s\n", v.window.Title, verb, v.window.Threshold.Both())
	t := agreement.Sum(v.places)
	if t.Dated == 0 {
		fmt.Fprintf(b, "  none of %d thermometers with %d readings tells the day of a year: readings are needed on both sides of the threshold, in its season\n", t.Places, t.Readings)
		return
	}
	fmt.Fprintf(b, "  %-28s %8s  %-18s  %-13s %5s  %-8s %9s\n", "place", "readings", "soil less map", "typical day", "years", "measured", "days off")
	for i := range v.places {
		p := &v.places[i]
		fmt.Fprintf(b, "  %-28s %8d  %+5.1f °F (%+.1f °C)  %s\n", name(p.Log), p.Readings, tenths(p.Departure.Fahrenheit()), tenths(float64(p.Departure)), v.days(l, p))
	}
	fmt.Fprintf(b, "\n  %d places, %d readings: soil is %+.1f °F (%+.1f °C) off the typical day's on average; places differ from it by %.1f °F (%.1f °C), either way, with weather and single years in that\n",
		t.Places, t.Readings, tenths(t.Departure.Fahrenheit()), tenths(float64(t.Departure)), t.Size.Fahrenheit(), float64(t.Size))
	fmt.Fprintf(b, "  %d places with %d years: the median year is %s than the map's typical day on average%s; places differ by %.1f days, either way\n",
		t.Dated, t.Years, later(t.Off), give(t.OffError), t.OffSize)
	fmt.Fprintf(b, "  %.0f %% of the years lie from the map's early to its late day; 80 %% are wanted\n", 100*t.Inside)
	if period != "" {
		fmt.Fprintf(b, "  the map stands for normals of %s; other years differ by the climate between them\n", period)
	}
	if v.off > 0 {
		fmt.Fprintf(b, "  %d thermometers lie off the map and are left out\n", v.off)
	}
}

// days writes what a place's years say.
func (v *verdict) days(l *wording.Language, p *agreement.Place) string {
	switch {
	case !p.Crossing.Reason.HasDay():
		return fmt.Sprintf("no day on the map (%v)", p.Crossing.Reason)
	case len(p.Years) == 0:
		return fmt.Sprintf("%-13s %5s  readings do not tell a day", l.Week(p.Crossing.Day.Week()), "0")
	}
	return fmt.Sprintf("%-13s %5d  %-8s %+9.1f", l.Week(p.Crossing.Day.Week()), len(p.Years), l.Date(p.Median), tenths(p.Off))
}

func name(l *agreement.Log) string {
	text := l.Name
	if text == "" {
		text = fmt.Sprintf("%.3f, %.3f", l.At.Lat, l.At.Lon)
	}
	if l.Depth > 0 {
		text += " at " + l.Depth.Inches()
	}
	return text
}

func later(days float64) string {
	if days < 0 {
		return fmt.Sprintf("%.1f days earlier", -days)
	}
	return fmt.Sprintf("%.1f days later", days)
}

// give writes a standard error, "" when it is not known.
func give(stdErr float64) string {
	if stdErr == 0 {
		return ""
	}
	return fmt.Sprintf(" (give or take %.1f)", stdErr)
}

// tenths rounds to tenths, so that what is hardly below 0 is not printed as -0.0.
func tenths(v float64) float64 { return tables.Round(v, 1) }
