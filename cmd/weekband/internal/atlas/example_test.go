package atlas_test

import (
	"context"
	"fmt"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/skerry"
)

// What all maps of the island share: two regions, the border between them, and the
// place that has a name on them.
func ExampleTerritory() {
	path, remove := skerry.Recipe()
	defer remove()
	s, err := skerry.Survey(context.Background(), path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer s.Inputs.Close()
	land, err := atlas.Territory(s.Recipe, s.Inputs, s.Findings.Fields[0])
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range land.Regions {
		fmt.Println(r.Name)
	}
	fmt.Println("border:", land.Borders)
	fmt.Println(land.Places[0].Name, land.Places[0].At)
	// Output:
	// West Skerry
	// East Skerry
	// border: [[[-47 38] [-47 38.2]]]
	// Skerry Haven {-47.3 38.11}
}
