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
//	recipe.yaml        two windows, one warming and one cooling
//	normals.tif        12 layers, monthly mean air temperature, °C, nodata over sea
//	elevation.tif      m, on the same grid of 120 × 160 cells of 0.08°
//	regions.geojson    RFC 7946, one MultiPolygon a region, properties code and name
//	places.csv         name, lat, lon, code, region (its name), rank 1 (chief town) to 3
//	soil-stations.csv  20 stations that measure air and soil: id, name, lat, lon, elev_m
//	soil-daily.csv.gz  their days of 2020 to 2024: id, date, air_c, soil5_c, soil10_c
//	offsets.csv        what the command calibrate learns from these two; the recipe names it
//	thermometers.csv   what readers in 13 towns saw in spring, for the command verify:
//	                   place, lat, lon, date, soil with its unit, depth
//
// Offsets of soil above air differ over the land in a way that stations can
// learn but for the chance of every site, and thermometers follow the same
// truth. The five years of days are ordinary ones: their mean is the normals'.
func Files() fs.FS {
	files, err := fs.Sub(embedded, "territory")
	if err != nil {
		panic(err) // the name is a constant and valid
	}
	return files
}
