package main

import (
	"context"

	"weekband/cmd/weekband/internal/verdict"
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
	found, err := verdict.Judge(ctx, standing(c.Out, s), c.Readings, c.Window, s.say.Notes)
	if err != nil {
		return err
	}
	if c.Picture != "" {
		if err := found.Draw(c.Picture); err != nil {
			return err
		}
		s.say.Done("wrote %s", c.Picture)
	}
	if c.JSON {
		return s.answerJSON(found.Reply())
	}
	return found.Write(s.out)
}
