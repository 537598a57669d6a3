package main

import (
	"encoding/json"
	"io"
)

// The parts of RFC 7946 that a set of regions needs.
type (
	collection struct {
		Type     string    `json:"type"`
		Features []feature `json:"features"`
	}
	feature struct {
		Type       string     `json:"type"`
		Properties properties `json:"properties"`
		Geometry   geometry   `json:"geometry"`
	}
	properties struct {
		Code string `json:"code"`
		Name string `json:"name"`
	}
	geometry struct {
		Type        string           `json:"type"`
		Coordinates [][][][2]float64 `json:"coordinates"`
	}
)

// writeRegions writes one MultiPolygon for each of the territory's regions.
func writeRegions(w io.Writer, shapes []shape) error {
	labels := make([]properties, len(shapes))
	for k := range shapes {
		labels[k] = properties{theRegions[k].code, theRegions[k].name}
	}
	return writeShapes(w, shapes, labels)
}

// writeShapes writes one MultiPolygon for each shape, with its label.
func writeShapes(w io.Writer, shapes []shape, labels []properties) error {
	all := collection{Type: "FeatureCollection"}
	for k, s := range shapes {
		f := feature{Type: "Feature", Properties: labels[k]}
		f.Geometry.Type = "MultiPolygon"
		for _, polygon := range s {
			var rings [][][2]float64
			for _, r := range polygon {
				var line [][2]float64
				for _, p := range r {
					line = append(line, [2]float64{p.Lon, p.Lat})
				}
				rings = append(rings, line)
			}
			f.Geometry.Coordinates = append(f.Geometry.Coordinates, rings)
		}
		all.Features = append(all.Features, f)
	}
	text, err := json.Marshal(all)
	if err != nil {
		return err
	}
	_, err = w.Write(append(text, '\n'))
	return err
}
