package skerry_test

import (
	"context"
	"fmt"

	"weekband/cmd/weekband/internal/skerry"
)

// The east is colder by six tenths of a degree, and a year of 14 K to either side
// warms by 14 × 2π/365 = 0.24 K a day in spring: it comes two and a half days later.
func ExampleSurvey() {
	path, remove := skerry.Recipe()
	defer remove()
	s, err := skerry.Survey(context.Background(), path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer s.Inputs.Close()
	for _, row := range s.Findings.Rows {
		fmt.Printf("%s: day %.1f, the week of %s\n", row.Name, row.Median, row.Median.Week())
	}
	// Output:
	// West Skerry: day 125.0, the week of Apr 30–May 6
	// East Skerry: day 127.5, the week of May 7–13
}
