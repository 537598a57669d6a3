package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"weekband/grid/agreement"
	"weekband/grid/crossing"
	"weekband/grid/curve"
	"weekband/grid/soil"
	"weekband/grid/table"
	"weekband/grid/units"
	"weekband/render/lookup"
	"weekband/render/wording"
)

type verifyCmd struct {
	Out      string `arg:"" name:"edition" help:"Folder of a built edition." complete:"folders"`
	Readings string `arg:"" help:"CSV of soil thermometers, gzipped or not: place,lat,lon,date,soil,depth; soil with its unit, such as 52.3 F." complete:"files .csv .csv.gz"`
	Window   string `help:"Window to compare crossings for. Default: all." placeholder:"ID" complete:"windows" group:"What is compared"`
	Picture  string `help:"PNG to draw the comparison into." placeholder:"FILE" complete:"files .png" group:"What is written"`
	JSON     bool   `help:"Answer as JSON."`
}

// Run compares an edition with thermometers.
func (c verifyCmd) Run(ctx context.Context, s *streams) error {
	c.Out = standing(c.Out, s)
	edition, err := lookup.Open(os.DirFS(c.Out))
	if err != nil {
		return fmt.Errorf("%s: %w", c.Out, err)
	}
	windows, err := c.windows(edition)
	if err != nil {
		return err
	}
	logs, notes, err := c.decode()
	if err != nil {
		return err
	}
	s.say.notes(notes)
	answers := make([][]lookup.Answer, len(logs))
	for i := range logs {
		if answers[i], err = edition.At(logs[i].At); err != nil {
			return err
		}
	}
	var all []verdict
	for _, i := range windows {
		if err := ctx.Err(); err != nil {
			return err
		}
		v, err := compare(edition, i, logs, answers)
		if err != nil {
			return fmt.Errorf("%s: %w", c.Readings, err)
		}
		all = append(all, v)
	}
	if c.Picture != "" {
		if err := drawVerdict(c.Picture, edition, &all[0]); err != nil {
			return err
		}
		s.say.done("wrote %s", c.Picture)
	}
	if c.JSON {
		enc := json.NewEncoder(s.out)
		enc.SetIndent("", "  ")
		return enc.Encode(newVerifyReply(edition, all))
	}
	return writeVerdicts(s.out, edition, all)
}

// windows returns which windows of the edition are wanted.
func (c verifyCmd) windows(e *lookup.Edition) (wanted []int, err error) {
	if e.Depth == 0 {
		return nil, fmt.Errorf("%s maps %s: soil thermometers cannot tell how good it is", c.Out, e.Measures)
	}
	var ids []string
	for i := range e.Windows {
		ids = append(ids, e.Windows[i].ID)
		if c.Window == "" || c.Window == ids[i] {
			wanted = append(wanted, i)
		}
	}
	if wanted == nil {
		return nil, &usageError{fmt.Sprintf("window %q: %s has %s", c.Window, c.Out, strings.Join(ids, ", "))}
	}
	return wanted, nil
}

func (c verifyCmd) decode() (logs []agreement.Log, notes []string, err error) {
	f, err := os.Open(c.Readings)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	text, err := unzipped(f, c.Readings)
	if err != nil {
		return nil, nil, err
	}
	return agreement.Decode(table.Text{Reader: text, Name: c.Readings})
}

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

// writeVerdicts tells people how thermometers agree with an edition.
func writeVerdicts(w io.Writer, e *lookup.Edition, all []verdict) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, edition %d: %s\n", e.Title, e.Index.Edition, e.Measures)
	for i := range all {
		b.WriteString("\n")
		all[i].write(&b, e.Words, e.Period)
	}
	fmt.Fprintf(&b, "\n%s\n", e.Words.Sentences.Caution)
	_, err := io.WriteString(w, b.String())
	return err
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
		fmt.Fprintf(b, "  %-28s %8d  %+5.1f °F (%+.1f °C)  %s\n", name(p.Log), p.Readings, p.Departure.Fahrenheit(), float64(p.Departure), v.days(l, p))
	}
	fmt.Fprintf(b, "\n  %d places, %d readings: soil is %+.1f °F (%+.1f °C) off the typical day's on average, %.1f °F (%.1f °C) in size; weather and single years are in that\n",
		t.Places, t.Readings, t.Departure.Fahrenheit(), float64(t.Departure), t.Size.Fahrenheit(), float64(t.Size))
	fmt.Fprintf(b, "  %d places with %d years: the median year is %s than the map's typical day on average%s, %.1f days apart in size\n",
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
	return fmt.Sprintf("%-13s %5d  %-8s %+9.1f", l.Week(p.Crossing.Day.Week()), len(p.Years), l.Date(p.Median), p.Off)
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
