package ground_test

import (
	"fmt"

	"github.com/paulmach/orb"

	"weekband/regions/arcs"
	"weekband/regions/ground"
)

func ExampleMend() {
	// A bow tie: its ring crosses itself at (1, 1).
	drawn := orb.MultiPolygon{{{{0, 0}, {2, 2}, {2, 0}, {0, 2}, {0, 0}}}}
	mended, found, err := ground.Mend(drawn)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("crossed itself:", found.Crossed)
	for _, triangle := range mended {
		fmt.Println(triangle[0], "of area", arcs.SignedArea(triangle[0]))
	}
	// Output:
	// crossed itself: true
	// [[0 0] [1 1] [0 2] [0 0]] of area 1
	// [[1 1] [2 0] [2 2] [1 1]] of area 1
}
