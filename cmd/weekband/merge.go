package main

import (
	"context"

	"weekband/cmd/weekband/internal/survey"
)

type mergeCmd struct {
	Recipe string   `arg:"" help:"YAML file that describes the run." placeholder:"RECIPE"`
	Parts  []string `arg:"" help:"Files that builds of it with --rows or --share wrote, which hold every row once." placeholder:"PART"`
	Out    string   `help:"Folder to write; out/ and the recipe's name if not given." placeholder:"DIR"`

	Stream   bool `help:"Write what build --stream does."`
	AllCells bool `help:"Write the table of cells even when it has more than two million lines."`

	cacheFlag
	eventsFlag
}

// Run builds the recipe's edition from rows that were worked out apart.
func (c mergeCmd) Run(ctx context.Context, s *streams) error {
	o := survey.Order{Path: c.Recipe, Out: outOf(c.Recipe, c.Out), AllCells: c.AllCells, Stream: c.Stream, Parts: c.Parts}
	return build(ctx, o, c.Cache, s.say, pipeline)
}
