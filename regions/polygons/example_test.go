package polygons_test

import (
	"fmt"
	"strings"

	"weekband/regions"
	"weekband/regions/polygons"
)

func ExampleDecode() {
	text := `{"type": "Feature", "properties": {"code": "MV-1", "name": "Upper Merrow"},
		"geometry": {"type": "Polygon", "coordinates": [[[10, 0], [11, 0], [11, 1], [10, 1]]]}}`
	set, err := polygons.Decode(strings.NewReader(text), "vale.geojson", polygons.Options{ID: "code"})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range set.Regions {
		fmt.Printf("%s %s: %.1f km²\n", r.ID, r.Name, regions.Area(r.Shape))
	}
	fmt.Println(set.Warnings[0])
	// Output:
	// MV-1 Upper Merrow: 12308.5 km²
	// vale.geojson: 1 × rings were not closed and have been; first in feature 1
}
