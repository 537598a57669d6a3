package survey

import (
	"context"
	"fmt"
	"math"
	"path/filepath"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/keep"
	"weekband/cmd/weekband/internal/progress"
	"weekband/cmd/weekband/internal/recipe"
)

// Order is what a build is asked for. Without a portion and parts it is asked to
// work out everything by itself.
type Order struct {
	Recipe    *recipe.Recipe
	Path, Out string      // of the recipe, and the folder to write
	AllCells  bool        // write the table of cells however long it is
	Stream    bool        // hold no grid: write crossing grids and the table of regions only
	Hold      int         // cells that may be held at a time; 0 for four million
	Kept      *keep.Store // work of earlier builds, nil for none

	Portion Portion  // of the rows, when only those are wanted
	Parts   []string // files of rows that were worked out apart, none when all are to be worked out
}

// mostCells is how many cells the grid of an order may have.
func (o Order) mostCells() int {
	if o.Stream || o.Portion != (Portion{}) { // neither holds the grid
		return math.MaxInt
	}
	return inputs.MostCells
}

// working says how an order comes by its fields.
func (o Order) working() string {
	if n := len(o.Parts); n > 0 {
		return fmt.Sprintf("putting together from %d parts", n)
	}
	return "working out"
}

// Open opens and checks what the recipe of an order names, the first step of an
// edition, with the sums of all files. spare is told which files are read, and
// returns an error when one would be overwritten. Whoever opens the inputs
// closes them.
func Open(ctx context.Context, o Order, spare func(files ...string) error, say *progress.Teller) (*inputs.Set, error) {
	say.Stage("reading what %s names", o.Path)
	in, err := inputs.Open(ctx, o.Recipe, filepath.Dir(o.Path), o.mostCells())
	if err != nil {
		return nil, err
	}
	if err := prepare(in, o, spare, say); err != nil {
		in.Close()
		return nil, err
	}
	return in, nil
}

// prepare sums up the files of an order, sees that none of them would be replaced,
// leaves out regions off the grid, and checks the insets.
func prepare(in *inputs.Set, o Order, spare func(files ...string) error, say *progress.Teller) error {
	if err := in.Hash(o.Path); err != nil {
		return err
	}
	if err := spare(append(in.Paths(), o.Parts...)...); err != nil {
		return err
	}
	in.Say = say
	if err := in.KeepOnGrid(o.Recipe.Regions); err != nil {
		return err
	}
	say.Notes(in.Notes)
	if err := in.CheckInsets(o.Recipe.Insets); err != nil {
		return fmt.Errorf("%s: %w", o.Path, err)
	}
	return nil
}
