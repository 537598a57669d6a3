package bands_test

import (
	"fmt"

	"weekband/grid"
	"weekband/regions/arcs"
	"weekband/regions/bands"
)

// Four cells in a row, of 1° each, whose day rises by 10 from cell to cell.
// The contour of day 60 runs through the centre of the third cell.
func ExampleTrace() {
	g, _ := grid.New(grid.Box{West: 10, South: 50, East: 14, North: 51}, 1, 4)
	day := grid.NewRaster[float32](g)
	for col := range 4 {
		day.Set(grid.Cell{Col: col}, float32(40+10*col))
	}
	set, err := bands.Trace(bands.Field{Day: day}, []float64{60}, bands.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range set.Bands {
		fmt.Printf("band %d: %.2f square degrees\n", b.Index, arcs.Area(b.Shape))
	}
	// Output:
	// band 0: 2.50 square degrees
	// band 1: 1.50 square degrees
}
