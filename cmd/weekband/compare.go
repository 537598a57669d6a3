package main

import (
	"context"
	"io"

	"weekband/cmd/weekband/internal/comparison"
	"weekband/cmd/weekband/internal/usage"
)

type compareCmd struct {
	Older   string   `arg:"" help:"Folder of a built edition." complete:"folders"`
	Newer   string   `arg:"" optional:"" help:"Folder of a newer one. Without it two windows of OLDER are compared; see --windows." complete:"folders"`
	Windows []string `help:"Compare the window A of OLDER with the window B of NEWER, or of OLDER when it stands alone, instead of each with its own." placeholder:"A,B" complete:"windows" group:"What is compared"`
	Out     string   `help:"Folder to write maps, tables and the paragraph into. Default: none." placeholder:"DIR" complete:"folders" group:"What is written"`
	JSON    bool     `help:"Answer as JSON."`
}

// Run tells what moved between two editions, or two windows.
func (c compareCmd) Run(ctx context.Context, s *streams) error {
	if err := c.check(); err != nil {
		return err
	}
	c.Older = standing(c.Older, s)
	if c.Newer != "" {
		c.Newer = standing(c.Newer, s)
	}
	cmp, err := comparison.Between(ctx, c.Older, c.Newer, c.Windows)
	if err != nil {
		return err
	}
	s.say.Remarks(cmp.Notes)
	if c.Out != "" {
		if err := cmp.Publish(ctx, c.Out); err != nil {
			return err
		}
		s.say.Done("wrote %s", c.Out)
	}
	if c.JSON {
		return s.answerJSON(cmp.Reply())
	}
	_, err = io.WriteString(s.out, cmp.Summary())
	return err
}

// check refuses arguments that say nothing to compare.
func (c compareCmd) check() error {
	switch n := len(c.Windows); {
	case n == 0 && c.Newer == "":
		return usage.Errorf("compare wants two editions, or one and two of its windows: --windows A,B")
	case n != 0 && n != 2:
		return usage.Errorf("--windows names %d windows; want two: --windows A,B", n)
	case n == 2 && c.Newer == "" && c.Windows[0] == c.Windows[1]:
		return usage.Errorf("--windows names %q twice; want two different windows of one edition", c.Windows[0])
	}
	return nil
}
