package demo

import (
	"embed"
	"io/fs"
)

// Recipe is the name of the recipe in Files.
const Recipe = "recipe.yaml"

//go:embed territory
var embedded embed.FS

// Files returns the recipe and the files it names, all at the root:
//
//	recipe.yaml      two windows, one warming and one cooling
//	normals.tif      12 layers, monthly mean air temperature, °C, nodata over sea
//	elevation.tif    m, on the same grid of 120 × 160 cells of 0.08°
//	regions.geojson  RFC 7946, one MultiPolygon a region, properties code and name
//	places.csv       name, lat, lon, code, region (its name), rank 1 (chief town) to 3
func Files() fs.FS {
	files, err := fs.Sub(embedded, "territory")
	if err != nil {
		panic(err) // the name is a constant and valid
	}
	return files
}
