package polygons

import (
	"bytes"
	"encoding/json"
	"fmt"

	"github.com/paulmach/orb"
)

// geometry is any GeoJSON object but a FeatureCollection's own members.
type geometry struct {
	Type        string
	Coordinates json.RawMessage
	Geometries  []geometry
}

type geoFeature struct {
	Type       string
	ID         json.RawMessage
	Properties map[string]json.RawMessage
	Geometry   *geometry
}

// readGeoJSON returns the features of a document that hold polygons.
func readGeoJSON(data []byte, name string, found *findings) ([]feature, error) {
	var doc struct {
		Type     string
		Features []geoFeature
	}
	if err := unmarshal(data, &doc, name); err != nil {
		return nil, err
	}
	list := doc.Features
	switch doc.Type {
	case "FeatureCollection":
	case "Feature":
		list = make([]geoFeature, 1)
		if err := unmarshal(data, &list[0], name); err != nil {
			return nil, err
		}
	default:
		list = []geoFeature{{Type: "Feature", Geometry: new(geometry)}}
		if err := unmarshal(data, list[0].Geometry, name); err != nil {
			return nil, err
		}
	}
	var features []feature
	for i, f := range list {
		out := feature{
			where: place("feature", i+1, plain(f.ID)),
			id:    plain(f.ID), properties: f.Properties,
		}
		m := mender{file: name, where: out.where, found: found}
		if err := m.polygonsOf(f.Geometry, &out.shape); err != nil {
			return nil, err
		}
		if len(out.shape) == 0 {
			found.add(out.where, "features without a polygon were left out")
			continue
		}
		features = append(features, out)
	}
	return features, nil
}

// polygonsOf appends the polygons of a geometry to shape.
func (m mender) polygonsOf(g *geometry, shape *orb.MultiPolygon) error {
	if g == nil {
		return nil
	}
	switch g.Type {
	case "Polygon":
		var rings [][][]float64
		if err := m.coordinates(g, 3, &rings); err != nil {
			return err
		}
		return m.polygon(rings, shape)
	case "MultiPolygon":
		var polygons [][][][]float64
		if err := m.coordinates(g, 4, &polygons); err != nil {
			return err
		}
		for _, rings := range polygons {
			if err := m.polygon(rings, shape); err != nil {
				return err
			}
		}
	case "GeometryCollection":
		for i := range g.Geometries {
			if err := m.polygonsOf(&g.Geometries[i], shape); err != nil {
				return err
			}
		}
	case "Point", "MultiPoint", "LineString", "MultiLineString":
		m.found.add(m.where, "points or lines among the polygons were left out")
	default:
		return fmt.Errorf("%s: %s: geometry type %q; want Polygon or MultiPolygon", m.file, m.where, g.Type)
	}
	return nil
}

// coordinates decodes the coordinates of a geometry, lists within depth lists.
func (m mender) coordinates(g *geometry, depth int, into any) error {
	err := json.Unmarshal(g.Coordinates, into)
	if err == nil && !bytes.Contains(g.Coordinates, []byte("null")) { // which would count as 0
		return nil
	}
	if words := misfit(g.Coordinates, "coordinates", depth); words != "" {
		return fmt.Errorf("%s: %s: %s: these are not the coordinates of a %s", m.file, m.where, words, g.Type)
	}
	return err
}

// polygon turns lists of positions into rings and mends them.
func (m mender) polygon(lists [][][]float64, shape *orb.MultiPolygon) error {
	polygon := make(orb.Polygon, 0, len(lists))
	for _, list := range lists {
		ring := make(orb.Ring, len(list))
		for i, position := range list {
			if len(position) < 2 {
				return fmt.Errorf("%s: %s: a position of %d numbers; want longitude and latitude", m.file, m.where, len(position))
			}
			ring[i] = orb.Point{position[0], position[1]}
		}
		polygon = append(polygon, ring)
	}
	return m.mend(polygon, shape)
}
