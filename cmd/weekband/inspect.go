package main

import (
	"context"
	"io"
	"strings"

	"weekband/cmd/weekband/internal/inspect"
)

type inspectCmd struct {
	Files    []string `arg:"" name:"file" help:"A data set: one file, or the twelve files of a year." complete:"files"`
	Variable string   `help:"Variable of a NetCDF file that holds several." placeholder:"NAME" complete:"nothing" group:"What to look at"`
	Object   string   `help:"Object of a TopoJSON file that holds several." placeholder:"NAME" complete:"nothing" group:"What to look at"`
	JSON     bool     `help:"Answer as JSON."`
}

// Run tells what files hold and what in them looks wrong.
func (c inspectCmd) Run(ctx context.Context, s *streams) error {
	s.say.Aside("looking at %s", strings.Join(c.Files, ", "))
	found, err := inspect.Files(ctx, c.Files, c.Variable, c.Object)
	if err != nil {
		return err
	}
	if c.JSON {
		return s.answerJSON(found)
	}
	_, err = io.WriteString(s.out, found.Text())
	return err
}
