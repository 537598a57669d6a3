package arcs_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
)

func ExampleBuild() {
	west := orb.MultiPolygon{{{{0, 0}, {1, 0}, {1.1, 0.5}, {1, 1}, {0, 1}, {0, 0}}}}
	east := orb.MultiPolygon{{{{1, 0}, {2, 0}, {2, 1}, {1, 1}, {1.1, 0.5}, {1, 0}}}}
	topology := arcs.Build([]orb.MultiPolygon{west, east})
	topology.Simplify(0.3)
	fmt.Println("shared:", topology.Inner())
	for _, shape := range topology.Shapes() {
		fmt.Println(arcs.Area(shape))
	}
	// Output:
	// shared: [[[1 0] [1 1]]]
	// 1
	// 1
}
