package main

import (
	"cmp"
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"

	"weekband/cmd/weekband/internal/demo"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/progress"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/scratch"
	"weekband/cmd/weekband/internal/survey"
)

// cacheFlag says where finished work is kept from build to build.
type cacheFlag struct {
	Cache string `help:"Folder for finished work, which the next build need not repeat; off for none. Default: WEEKBAND_CACHE, or a folder of the user's own." env:"WEEKBAND_CACHE" placeholder:"DIR" complete:"folders off"`
}

type demoCmd struct {
	Out    string `help:"Folder to write." default:"out/demo" placeholder:"DIR" complete:"folders" group:"What is written"`
	Unpack string `help:"Only write the example's recipe and data into this folder, to try changes on." placeholder:"DIR" complete:"folders" group:"What is written"`

	cacheFlag
	eventsFlag
}

// Run builds the embedded territory, or unpacks it.
func (c demoCmd) Run(ctx context.Context, s *streams) error {
	if c.Unpack != "" {
		if err := os.CopyFS(c.Unpack, demo.Files()); err != nil {
			return err
		}
		s.say.Done("wrote %s; now try: weekband build %s", c.Unpack, filepath.Join(c.Unpack, demo.Recipe))
		return nil
	}
	dir, err := scratch.New("demo")
	if err != nil {
		return err
	}
	defer dir.Close()
	territory := filepath.Join(dir.Path(), "territory")
	if err := os.CopyFS(territory, demo.Files()); err != nil {
		return err
	}
	return build(ctx, survey.Order{Path: filepath.Join(territory, demo.Recipe), Out: c.Out}, c.Cache, s.say, pipeline)
}

type buildCmd struct {
	Recipe string `arg:"" help:"YAML file that describes the run." complete:"files .yaml .yml"`
	Out    string `help:"Folder to write. Default: out/ and the recipe's name." placeholder:"DIR" complete:"folders" group:"What is written"`
	Check  bool   `help:"Only tell what a build would change of the edition that stands, and why; write nothing there." xor:"what" group:"Instead of an edition"`
	Rows   string `help:"Only work out rows FROM up to, not with, TO, counted from 0 in the north, and write them beside the edition's folder, for merge." placeholder:"FROM:TO" xor:"what" complete:"nothing" group:"Instead of an edition"`
	Share  string `help:"Like --rows, for share I of N, counted from 0." placeholder:"I/N" xor:"what" complete:"nothing" group:"Instead of an edition"`

	Stream   bool `help:"Write only the crossing grids, the table of regions and the manifest, as a stream: for grids too large to draw." xor:"what" group:"What is written"`
	AllCells bool `help:"Write the table of cells even when it has more than two million lines." group:"What is written"`

	cacheFlag
	eventsFlag
}

// Run builds the recipe's edition or some rows of it, or tells what a build
// would change.
func (c buildCmd) Run(ctx context.Context, s *streams) error {
	wanted, err := survey.PortionOf(c.Rows, c.Share)
	if err != nil {
		return err
	}
	do := pipeline
	switch {
	case c.Check:
		do = func(ctx context.Context, o survey.Order, say *progress.Teller) error {
			return check(ctx, o, s.out, say)
		}
	case wanted != survey.Portion{}:
		do = survey.TakePart
	}
	o := survey.Order{Path: c.Recipe, Out: outOf(c.Recipe, c.Out), AllCells: c.AllCells, Stream: c.Stream, Portion: wanted}
	return build(ctx, o, c.Cache, s.say, do)
}

// outOf returns the folder to write for a recipe: the one that is named, or one
// of the recipe's name.
func outOf(recipe, named string) string {
	if named != "" {
		return named
	}
	base := filepath.Base(recipe)
	return filepath.Join("out", strings.TrimSuffix(base, filepath.Ext(base)))
}

// build reads the recipe of an order, opens kept work and does the order.
func build(ctx context.Context, o survey.Order, cache string, say *progress.Teller, do func(context.Context, survey.Order, *progress.Teller) error) error {
	var err error
	o.Recipe, err = recipe.Load(o.Path)
	if bad, ok := errors.AsType[*recipe.Problems](err); ok {
		return inputs.AlsoWrong(ctx, bad, filepath.Dir(o.Path))
	}
	if err != nil {
		return err
	}
	if o.Kept, err = openStore(cache); err != nil {
		say.Note("no work is kept for the next build: " + err.Error())
	}
	if err := do(ctx, o, say); err != nil {
		return err
	}
	if err := cmp.Or(o.Kept.Trouble(), o.Kept.Trim()); err != nil {
		say.Note("not all work could be kept for the next build: " + err.Error())
	}
	return nil
}

// openStore opens the folder of kept work: one that is named, the usual one
// without a name, none when it is off.
func openStore(dir string) (*keep.Store, error) {
	if dir == "off" {
		return nil, nil
	}
	if dir == "" {
		user, err := os.UserCacheDir()
		if err != nil {
			return nil, err
		}
		dir = filepath.Join(user, "weekband")
	}
	return keep.Open(dir, keep.DefaultLimit)
}
