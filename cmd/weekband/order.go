package main

import (
	"context"
	"fmt"
	"math"
	"path/filepath"

	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/recipe"
)

// order is what a build is asked for.
type order struct {
	recipe    *recipe.Recipe
	path, out string      // of the recipe, and the folder to write
	allCells  bool        // write the table of cells however long it is
	stream    bool        // hold no grid: write crossing grids and the table of regions only
	hold      int         // cells that may be held at a time, 0 for mostHeld
	kept      *keep.Store // work of earlier builds, nil for none

	portion portion  // of the rows, when only those are wanted
	parts   []string // files of rows that were worked out apart, none when all are to be worked out
}

// mostCells is how many cells the grid of an order may have.
func (o order) mostCells() int {
	if o.stream || o.portion != (portion{}) { // neither holds the grid
		return math.MaxInt
	}
	return mostWorked
}

// working says how an order comes by its fields.
func (o order) working() string {
	if n := len(o.parts); n > 0 {
		return fmt.Sprintf("putting together from %d parts", n)
	}
	return "working out"
}

// openChecked opens and checks what the recipe of an order names, the first step of
// an edition.
func openChecked(ctx context.Context, o order, spare func(files ...string) error, say *progress) (*inputs, error) {
	say.stage("reading what %s names", o.path)
	in, err := openInputs(ctx, o.recipe, filepath.Dir(o.path), o.mostCells())
	if err != nil {
		return nil, err
	}
	if err := checkTogether(in, o, spare, say); err != nil {
		in.close()
		return nil, err
	}
	return in, nil
}

// checkTogether looks at the inputs of an order as a whole.
func checkTogether(in *inputs, o order, spare func(files ...string) error, say *progress) error {
	if err := in.hash(o.path); err != nil {
		return err
	}
	if err := spare(append(in.paths(), o.parts...)...); err != nil {
		return err
	}
	in.say = say
	if err := in.keepOnGrid(o.recipe.Regions); err != nil {
		return err
	}
	say.notes(in.notes)
	if err := in.checkInsets(o.recipe.Insets); err != nil {
		return fmt.Errorf("%s: %w", o.path, err)
	}
	return nil
}
