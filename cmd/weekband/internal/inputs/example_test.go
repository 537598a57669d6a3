package inputs_test

import (
	"context"
	"fmt"
	"path/filepath"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/skerry"
)

// What a recipe names is opened at once: twelve grids of 2 × 12 cells, two regions
// and a place.
func ExampleOpen() {
	path, remove := skerry.Recipe()
	defer remove()
	r, err := recipe.Load(path)
	if err != nil {
		fmt.Println(err)
		return
	}
	in, err := inputs.Open(context.Background(), r, filepath.Dir(path), inputs.MostCells)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer in.Close()
	fmt.Println(in.Normals.Grid())
	fmt.Println(in.Unit)
	fmt.Println(in.Areas.Regions[0].Name, "and", in.Areas.Regions[1].Name)
	fmt.Println(in.Places[0].Name)
	for _, f := range in.Files[len(in.Files)-2:] {
		fmt.Println(f.Role, f.Name)
	}
	// Output:
	// 2 rows × 12 columns, west -47.6, south 38, east -46.4, north 38.2
	// C: values -4.93 to 24.33 look like degrees Celsius
	// West Skerry and East Skerry
	// Skerry Haven
	// normals tavg-11.asc
	// normals tavg-12.asc
}
