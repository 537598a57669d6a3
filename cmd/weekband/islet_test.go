package main

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// islet writes a recipe and what it names: an island of a few cells with two
// regions and a short season, which builds in a moment.
func islet(t *testing.T) (recipe string) {
	t.Helper()
	dir := t.TempDir()
	write := func(name, text string) {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for month := range 12 {
		var rows strings.Builder
		for row := range 2 {
			for col := range 12 {
				fmt.Fprintf(&rows, "%.2f ", 10+0.5*float64(row)-0.1*float64(col)-14*math.Cos(2*math.Pi*(float64(month)-0.3)/12))
			}
			rows.WriteString("\n")
		}
		write(fmt.Sprintf("tavg-%02d.asc", month+1), "ncols 12\nnrows 2\nxllcorner -47.6\nyllcorner 38\ncellsize 0.1\nNODATA_value -9999\n"+rows.String())
	}
	write("halves.geojson", `{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"code":"W","name":"West Skerry"},"geometry":{"type":"Polygon","coordinates":[[[-47.6,38],[-47,38],[-47,38.2],[-47.6,38.2],[-47.6,38]]]}},
{"type":"Feature","properties":{"code":"E","name":"East Skerry"},"geometry":{"type":"Polygon","coordinates":[[[-47,38],[-46.4,38],[-46.4,38.2],[-47,38.2],[-47,38]]]}}]}`)
	write("places.csv", "name,lat,lon\nSkerry Haven,38.11,-47.3\n")
	write("skerry.yaml", `title: Soil warm-up, Skerry
edition: 2027
normals: {files: [tavg-*.asc], period: 1991-2020}
soil: {calibration: none}
windows:
  - {id: spring, title: Spring, threshold: 55 °F, starts: 54 °F, residual: short, ahead: 7 d, floor: 80 %}
regions: [{file: halves.geojson, id: code, name: name}]
places: places.csv
maps: none
size: 800
`)
	return filepath.Join(dir, "skerry.yaml")
}

// islets is islet with the recipe of another edition, which differs in the
// title.
func islets(t *testing.T) (first, second string) {
	t.Helper()
	first = islet(t)
	text, err := os.ReadFile(first)
	if err != nil {
		t.Fatal(err)
	}
	second = filepath.Join(filepath.Dir(first), "again.yaml")
	if err := os.WriteFile(second, []byte(strings.Replace(string(text), "Skerry", "Skerry again", 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	return first, second
}
