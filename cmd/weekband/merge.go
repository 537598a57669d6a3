package main

import (
	"context"

	"weekband/cmd/weekband/internal/survey"
)

type mergeCmd struct {
	Recipe string   `arg:"" help:"YAML file that describes the run." complete:"files .yaml .yml"`
	Parts  []string `arg:"" name:"part" help:"Files that builds of it with --rows or --share wrote, which hold every row once." complete:"files .part"`
	Out    string   `help:"Folder to write. Default: out/ and the recipe's name." placeholder:"DIR" complete:"folders" group:"What is written"`

	Stream   bool `help:"Write what build --stream does: the crossing grids, the table of regions and the manifest." group:"What is written"`
	AllCells bool `help:"Write the table of cells even when it has more than two million lines." group:"What is written"`

	cacheFlag
	eventsFlag
}

// Run builds the recipe's edition from rows that were worked out apart.
func (c mergeCmd) Run(ctx context.Context, s *streams) error {
	o := survey.Order{Path: c.Recipe, Out: outOf(c.Recipe, c.Out), AllCells: c.AllCells, Stream: c.Stream, Parts: c.Parts}
	return build(ctx, o, c.Cache, s.say, pipeline)
}
