package comparison_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
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
	text, err := os.ReadFile(recipe)
	if err != nil {
		fmt.Println(err)
		return
	}
	text = bytes.Replace(text, []byte("edition: 2027"), []byte("edition: 2028"), 1)
	text = bytes.Replace(text, []byte("threshold: 55 °F"), []byte("threshold: 57 °F"), 1)
	if err := os.WriteFile(recipe, text, 0o644); err != nil {
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
