package caution_test

import (
	"fmt"

	"weekband/render/caution"
)

// One line stands on every map; handouts, pages and answers have all.
func Example() {
	fmt.Println(caution.Short)
	fmt.Println(len(caution.All), "in full, of which the second is:")
	fmt.Println(caution.All[1])
	// Output:
	// Typical conditions, not a forecast. Check your own soil. The product label is the law; local rules and licensed practice come first.
	// 6 in full, of which the second is:
	// The product label is the law: rate, timing, turf species, intervals and protection are what the label says.
}
