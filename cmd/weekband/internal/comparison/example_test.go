package comparison_test

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"

	"weekband/cmd/weekband/internal/comparison"
	"weekband/cmd/weekband/internal/skerry"
)

// The next edition goes by a threshold two degrees (1.1 K) higher, which soil reaches
// some five days later at 0.24 K a day.
func ExampleBetween() {
	older, recipe, remove := skerry.Edition()
	defer remove()
	ctx := context.Background()
	if err := errors.Join(skerry.Change(recipe, "edition: 2027", "edition: 2028"), skerry.Change(recipe, "threshold: 55 °F", "threshold: 57 °F")); err != nil {
		fmt.Println(err)
		return
	}
	newer := filepath.Join(filepath.Dir(recipe), "newer")
	if err := skerry.Build(ctx, recipe, newer); err != nil {
		fmt.Println(err)
		return
	}
	c, err := comparison.Between(ctx, older, newer, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Reply().Paragraph)
	// Output:
	// Spring: in the edition of 2028 the typical week comes on the whole about a week later than in the edition of 2027. 33 % of the ground that has a week in both keeps it, 67 % has a later one. Of 2 regions that have a week in both 1 keeps it; 1 has a later one, West Skerry (from Apr 30–May 6 to May 7–13).
	//
	// Behind the change: another threshold.
	//
	// Typical conditions, not a forecast. Check your own soil. The product label is the law; local rules and licensed practice come first.
}
