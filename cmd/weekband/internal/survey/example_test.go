package survey_test

import (
	"context"
	"fmt"

	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/skerry"
	"weekband/cmd/weekband/internal/survey"
)

// The steps from a recipe to the weeks of its regions. That of the east comes later:
// each cell is a tenth of a degree colder than its neighbour in the west.
func ExampleTake() {
	path, remove := skerry.Recipe()
	defer remove()
	ctx := context.Background()
	r, err := recipe.Load(path)
	if err != nil {
		fmt.Println(err)
		return
	}
	order := survey.Order{Recipe: r, Path: path}
	nothingGoes := func(...string) error { return nil }
	in, err := survey.Open(ctx, order, nothingGoes, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer in.Close()
	found, err := survey.Take(ctx, order, in, nil, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range found.Rows {
		fmt.Printf("%s: %.0f km², the week of %s\n", row.Name, row.Shares.AreaKm2, row.Median.Week())
	}
	// Output:
	// West Skerry: 1168 km², the week of Apr 30–May 6
	// East Skerry: 1168 km², the week of May 7–13
}

// Of three shares the last is 2/3.
func ExamplePortionOf() {
	_, err := survey.PortionOf("", "3/3")
	fmt.Println(err)
	// Output: --share "3/3" is none; want I/N with I from 0 to N-1, such as 0/16 for the first of 16
}
