package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
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
	cmp, err := c.compared(ctx)
	if err != nil {
		return err
	}
	s.say.remarks(cmp.notes)
	if c.Out != "" {
		if err := cmp.publish(ctx, c.Out); err != nil {
			return err
		}
		s.say.done("wrote %s", c.Out)
	}
	if c.JSON {
		enc := json.NewEncoder(s.out)
		enc.SetIndent("", "  ")
		return enc.Encode(newComparisonReply(cmp))
	}
	_, err = io.WriteString(s.out, cmp.summary())
	return err
}

// check refuses arguments that say nothing to compare.
func (c compareCmd) check() error {
	switch n := len(c.Windows); {
	case n == 0 && c.Newer == "":
		return &usageError{"compare wants two editions, or one and two of its windows: --windows A,B"}
	case n != 0 && n != 2:
		return &usageError{fmt.Sprintf("--windows names %d windows; want two: --windows A,B", n)}
	case n == 2 && c.Newer == "" && c.Windows[0] == c.Windows[1]:
		return &usageError{fmt.Sprintf("--windows names %q twice; want two different windows of one edition", c.Windows[0])}
	}
	return nil
}

// compared opens the editions and compares them.
func (c compareCmd) compared(ctx context.Context) (*comparison, error) {
	one := c.Newer == ""
	older, err := openBuilt(c.Older, one)
	if err != nil {
		return nil, err
	}
	newer := older
	if !one {
		if newer, err = openBuilt(c.Newer, true); err != nil {
			return nil, err
		}
	}
	pairs, notes, err := paired(older, newer, c.Windows)
	if err != nil {
		return nil, err
	}
	return newComparison(ctx, older, newer, pairs, notes)
}
