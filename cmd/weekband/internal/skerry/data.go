package skerry

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
)

// recipeName is what the recipe is called.
const recipeName = "skerry.yaml"

// recipeText asks for one window with a short season, and no further maps.
const recipeText = `title: Soil warm-up, Skerry
edition: 2027
normals: {files: [tavg-*.asc], period: 1991-2020}
soil: {calibration: none}
windows:
  - {id: spring, title: Spring, threshold: 55 °F, starts: 54 °F, residual: short, ahead: 7 d, floor: 80 %}
regions: [{file: halves.geojson, id: code, name: name}]
places: places.csv
maps: none
size: 800
`

const regionsText = `{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"code":"W","name":"West Skerry"},"geometry":{"type":"Polygon","coordinates":[[[-47.6,38],[-47,38],[-47,38.2],[-47.6,38.2],[-47.6,38]]]}},
{"type":"Feature","properties":{"code":"E","name":"East Skerry"},"geometry":{"type":"Polygon","coordinates":[[[-47,38],[-46.4,38],[-46.4,38.2],[-47,38.2],[-47,38]]]}}]}`

const placesText = "name,lat,lon\nSkerry Haven,38.11,-47.3\n"

// Write writes the recipe and what it names into a folder that is there, and returns
// the path of the recipe.
func Write(dir string) (recipe string, err error) {
	files := map[string]string{recipeName: recipeText, "halves.geojson": regionsText, "places.csv": placesText}
	for month := range 12 {
		files[fmt.Sprintf("tavg-%02d.asc", month+1)] = normals(month)
	}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			return "", err
		}
	}
	return filepath.Join(dir, recipeName), nil
}

// normals is the grid of a month, counted from 0, in °C: a cosine year of 14 K to
// either side, coldest towards the end of January.
func normals(month int) string {
	var rows strings.Builder
	for row := range 2 {
		for col := range 12 {
			warmer, colder, season := float64(0.5*float64(row)), float64(0.1*float64(col)), float64(14*math.Cos(2*math.Pi*(float64(month)-0.3)/12))
			fmt.Fprintf(&rows, "%.2f ", 10+warmer-colder-season)
		}
		rows.WriteString("\n")
	}
	return "ncols 12\nnrows 2\nxllcorner -47.6\nyllcorner 38\ncellsize 0.1\nNODATA_value -9999\n" + rows.String()
}

// Change replaces a text in a file of the island, once; it is an error when the file
// does not hold it.
func Change(path, from, to string) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	if !strings.Contains(string(text), from) {
		return fmt.Errorf("%s does not hold %q", path, from)
	}
	return os.WriteFile(path, []byte(strings.Replace(string(text), from, to, 1)), 0o644)
}
