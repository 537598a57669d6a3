package inspect_test

import (
	"context"
	"fmt"
	"path/filepath"

	"weekband/cmd/weekband/internal/inspect"
	"weekband/cmd/weekband/internal/skerry"
)

// A month of the island's normals by itself.
func ExampleFiles() {
	path, remove := skerry.Recipe()
	defer remove()
	found, err := inspect.Files(context.Background(), []string{filepath.Join(filepath.Dir(path), "tavg-07.asc")}, "", "")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(found.Kind)
	for _, f := range found.Facts {
		fmt.Printf("%s: %s\n", f.Name, f.Value)
	}
	fmt.Printf("%.2f to %.2f\n", found.Layers[0].Min, found.Layers[0].Max)
	// Output:
	// grid
	// format: Esri ASCII grid
	// grid: 2 rows × 12 columns
	// edges: west -47.6, south 38, east -46.4, north 38.2
	// cells: 0.1° × 0.1° (longitude × latitude), in the middle about 8.76 × 11.1 km
	// reference system: not given; taken for longitudes and latitudes
	// unit as written: nothing
	// missing as written: -9999
	// layers: 1
	// as normals: no: one layer, and normals have 12 or 365
	// 22.73 to 24.33
}
