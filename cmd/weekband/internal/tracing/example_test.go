package tracing_test

import (
	"context"
	"fmt"

	"weekband/cmd/weekband/internal/skerry"
	"weekband/cmd/weekband/internal/tracing"
)

// The island is cut into the weeks in which its cells cross the threshold. Its cells
// are larger than pixels, so nothing is made coarser.
func ExampleTrace() {
	path, remove := skerry.Recipe()
	defer remove()
	ctx := context.Background()
	s, err := skerry.Survey(ctx, path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer s.Inputs.Close()
	detail := tracing.DetailOf(s.Recipe, s.Inputs)
	windows, err := tracing.Trace(ctx, s.Findings.Fields, s.Recipe.Maps, detail, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	win := windows[0]
	for _, b := range win.Bands.Bands {
		fmt.Printf("%s: %d polygons\n", win.Weeks[b.Index].Label(), len(b.Shape))
	}
	fmt.Printf("%.0f km², blocks of %d cell\n", win.Areas.Land(), detail.Large)
	// Output:
	// Apr 30–May 6: 1 polygons
	// May 7–13: 1 polygons
	// 2337 km², blocks of 1 cell
}
