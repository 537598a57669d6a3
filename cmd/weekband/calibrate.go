package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"weekband/cmd/weekband/internal/publish"
	"weekband/grid/calibration"
	"weekband/grid/crossing"
	"weekband/grid/packed"
	"weekband/grid/series"
	"weekband/grid/units"
)

type calibrateCmd struct {
	Sites  string `arg:"" help:"CSV of stations: id,name,lat,lon,elev_m." complete:"files .csv"`
	Values string `arg:"" help:"CSV of their paired series, gzipped or not: id,date,air_c,soil10_c and further soil<N>_c at N cm; a date is a day, 2010-05-17, or a month, 2010-05." complete:"files .csv .csv.gz"`
	Out    string `help:"Table to write; a recipe names it as soil: {calibration: FILE}." default:"offsets.csv" placeholder:"FILE" complete:"files .csv" group:"What is written"`
	Source string `help:"Where the series come from, written into the table as a remark." placeholder:"TEXT" complete:"nothing" group:"What is written"`

	eventsFlag
}

// Run learns offsets from series, writes their table and tells how well each
// station is foretold by the others.
func (c calibrateCmd) Run(ctx context.Context, s *streams) error {
	say := s.say
	say.Stage("reading %s and %s", c.Sites, c.Values)
	network, err := c.read()
	if err != nil {
		return err
	}
	say.Notes(network.Notes)
	say.Stage("checking %d stations", len(network.List))
	reports := network.Clean(series.Rules{})
	if err := ctx.Err(); err != nil {
		return err
	}
	say.Stage("fitting offsets")
	learned, skipped, err := calibration.Learn(network, reports)
	if err != nil {
		return fmt.Errorf("%s: %w", c.Values, err)
	}
	for _, line := range skipped {
		say.Note("left out: " + line)
	}
	model, err := calibration.New(c.Values, calibration.Table(learned))
	if err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	say.Stage("foretelling every station from the others")
	scores := calibration.Judge(model, learned, network.Depths, springLevels())
	err = publish.File(c.Out, func(w io.Writer) error {
		return calibration.Encode(w, calibration.Table(learned), c.remarks()...)
	})
	if err != nil {
		return err
	}
	say.Done("wrote %s", c.Out)
	return writeCalibration(s.out, model, reports, scores)
}

// springLevels are the warming triggers that calibrations are judged by.
func springLevels() []crossing.Trigger {
	var out []crossing.Trigger
	for _, f := range []float64{50, 55, 60, 65} {
		out = append(out, crossing.Trigger{Level: units.F.Celsius(f)})
	}
	return out
}

func (c calibrateCmd) read() (*series.Network, error) {
	sites, err := os.Open(c.Sites)
	if err != nil {
		return nil, err
	}
	defer sites.Close()
	values, err := os.Open(c.Values)
	if err != nil {
		return nil, err
	}
	defer values.Close()
	text, err := packed.Unzipped(values, c.Values)
	if err != nil {
		return nil, err
	}
	return series.Decode(series.Text{Reader: sites, Name: c.Sites}, series.Text{Reader: text, Name: c.Values})
}

func (c calibrateCmd) remarks() []string {
	remarks := []string{
		"Offsets of soil at 10 cm above lagged air, in kelvins; made by: weekband calibrate " + filepath.Base(c.Sites) + " " + filepath.Base(c.Values),
	}
	if c.Source != "" {
		remarks = append(remarks, "Source: "+c.Source)
	}
	return remarks
}

// writeCalibration tells people how good a calibration is.
func writeCalibration(w io.Writer, m *calibration.Model, reports []series.Report, scores []calibration.Score) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%d stations; covariance %v\n", m.Stations(), m.Covariance)
	var findings strings.Builder
	for _, r := range reports {
		for _, f := range r.Findings {
			if f.Kind != series.Plateau {
				fmt.Fprintf(&findings, "  %s, %s\n", r.ID, r.Text(f))
			}
		}
	}
	if findings.Len() > 0 {
		fmt.Fprintf(&b, "\nFound in the series:\n%s", findings.String())
	}
	b.WriteString("\nError of the typical crossing, foretold less measured, days:\n")
	for i, s := range scores {
		if s.Method == calibration.Methods[0] {
			if i > 0 {
				b.WriteString("\n")
			}
			fmt.Fprintf(&b, "%-36s stations  bias   mean  median  rms   90 %%\n", fmt.Sprintf("%s, warming to %s", s.Depth.Centimetres(), s.Trigger.Level.Both()))
		}
		fmt.Fprintf(&b, "  %-34s %5d   %+5.1f  %5.1f  %5.1f  %5.1f  %5.1f", s.Method, s.N, s.Bias, s.MAE, s.Median, s.RMSE, s.P90)
		if s.Missed > 0 {
			fmt.Fprintf(&b, "  (%d foretold to have none)", s.Missed)
		}
		b.WriteString("\n")
	}
	b.WriteString("\nOf the errors with the station left out, within one and two of their standard errors; and of\nits single years, from the early to the late day (10 % to 90 %), with its own deviations and with the usual spread:\n")
	for _, s := range scores {
		if s.Method == calibration.LeftOut {
			fmt.Fprintf(&b, "  %-6s %-18s %3.0f %%  %3.0f %%    %4d years  %3.0f %%  %3.0f %%\n", s.Depth.Centimetres(), s.Trigger.Level.Both(),
				100*s.Within[0], 100*s.Within[1], s.Years, 100*s.Held, 100*s.HeldDefault)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}
