package atlas

import (
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/weeks"
)

// A week that lies in no window's season is told.
func TestWorthOfAWeekOutsideAllSeasons(t *testing.T) {
	g, err := grid.New(grid.Box{West: -50, South: 35, East: -49, North: 36}, 2, 2)
	if err != nil {
		t.Fatal(err)
	}
	in := &inputs.Set{}
	NoteUndrawn(in, &recipe.Recipe{Looks: recipe.Looks{WorthOf: []season.Week{47}}}, []*weeks.Field{{Day: grid.NewRaster[float32](g)}})
	if len(in.Notes) != 1 || !strings.Contains(in.Notes[0], "no map of the worth of Nov 19–25") {
		t.Errorf("notes %q", in.Notes)
	}
}
