package zonal_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/grid/crossing"
	"weekband/regions/zonal"
)

// A region over one and a half cells: the whole one is dated, the half one
// never warms up.
func ExampleSummarize() {
	g, _ := grid.New(grid.Box{West: 10, South: 50, East: 12, North: 51}, 1, 2)
	day, reason := grid.NewRaster[float32](g), grid.NewRaster[crossing.Reason](g)
	day.Set(grid.Cell{Col: 0}, 100)
	reason.Set(grid.Cell{Col: 0}, crossing.Dated)
	reason.Set(grid.Cell{Col: 1}, crossing.Never)

	shape := orb.MultiPolygon{{{{10, 50}, {11.5, 50}, {11.5, 51}, {10, 51}, {10, 50}}}}
	s := zonal.Summarize(zonal.Cover(shape, g), day, reason)
	fmt.Printf("median day %.0f, dated %.3f, never %.3f\n", s.Median, s.DatedShare, s.NeverShare)
	// Output: median day 100, dated 0.667, never 0.333
}
