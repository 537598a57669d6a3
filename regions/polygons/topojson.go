package polygons

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"github.com/paulmach/orb"
)

// topology is a TopoJSON document (the TopoJSON format specification 1.0).
type topology struct {
	Transform *struct{ Scale, Translate [2]float64 }
	Arcs      json.RawMessage
	Objects   map[string]topoObject
}

type topoObject struct {
	Type       string
	ID         json.RawMessage
	Properties map[string]json.RawMessage
	Arcs       json.RawMessage
	Geometries []topoObject
}

// readTopology returns the polygons of one object of a document. Collections
// inside collections are opened; one with an id or properties of its own is
// one region.
func readTopology(data []byte, name, object string, found *findings) ([]feature, error) {
	var doc topology
	if err := unmarshal(data, &doc, name); err != nil {
		return nil, err
	}
	root, err := doc.pick(name, object)
	if err != nil {
		return nil, err
	}
	lines, err := doc.lines(name)
	if err != nil {
		return nil, err
	}
	reader := topoReader{name: name, lines: lines, found: found}
	if err := reader.walk(root); err != nil {
		return nil, err
	}
	return reader.features, nil
}

// pick returns the object asked for.
func (doc *topology) pick(name, object string) (topoObject, error) {
	keys := slices.Sorted(maps.Keys(doc.Objects))
	list := listed(keys)
	if object == "" && len(keys) == 1 {
		object = keys[0]
	}
	root, ok := doc.Objects[object]
	switch {
	case len(keys) == 0:
		return root, fmt.Errorf("%s: the topology holds no objects", name)
	case object == "":
		return root, fmt.Errorf("%s: holds several objects; say which of %s to read (object: …)", name, list)
	case !ok:
		return root, fmt.Errorf("%s: no object %q; it holds %s", name, object, list)
	}
	return root, nil
}

// lines decodes the arcs: with a transform they are differences of whole
// numbers, else positions.
func (doc *topology) lines(name string) ([]orb.LineString, error) {
	var arcs [][][]float64
	err := json.Unmarshal(doc.Arcs, &arcs)
	if err != nil || bytes.Contains(doc.Arcs, []byte("null")) {
		if words := misfit(doc.Arcs, "arcs", 3); words != "" {
			return nil, fmt.Errorf("%s: %s", name, words)
		}
		return nil, err
	}
	out := make([]orb.LineString, len(arcs))
	for i, arc := range arcs {
		line := make(orb.LineString, len(arc))
		x, y := 0.0, 0.0
		for j, position := range arc {
			if len(position) < 2 {
				return nil, fmt.Errorf("%s: arc %d: a position of %d numbers; want two", name, i, len(position))
			}
			if doc.Transform == nil {
				line[j] = orb.Point{position[0], position[1]}
				continue
			}
			x, y = x+position[0], y+position[1]
			scale, origin := doc.Transform.Scale, doc.Transform.Translate
			line[j] = orb.Point{float64(x*scale[0]) + origin[0], float64(y*scale[1]) + origin[1]}
		}
		out[i] = line
	}
	return out, nil
}

type topoReader struct {
	name     string
	lines    []orb.LineString
	found    *findings
	features []feature
	met      int
}

// walk collects the features of an object.
func (t *topoReader) walk(o topoObject) error {
	if o.Type == "GeometryCollection" && !given(o.ID) && o.Properties == nil {
		for _, part := range o.Geometries {
			if err := t.walk(part); err != nil {
				return err
			}
		}
		return nil
	}
	t.met++
	f := feature{where: place("geometry", t.met, plain(o.ID)), id: plain(o.ID), properties: o.Properties}
	m := mender{file: t.name, where: f.where, found: t.found, anyWinding: true}
	if err := t.polygonsOf(m, o, &f.shape); err != nil {
		return err
	}
	if len(f.shape) == 0 {
		t.found.add(f.where, "geometries without a polygon were left out")
		return nil
	}
	t.features = append(t.features, f)
	return nil
}

func (t *topoReader) polygonsOf(m mender, o topoObject, shape *orb.MultiPolygon) error {
	var polygons [][][]int
	var err error
	switch o.Type {
	case "Polygon":
		polygons = make([][][]int, 1)
		err = json.Unmarshal(o.Arcs, &polygons[0])
	case "MultiPolygon":
		err = json.Unmarshal(o.Arcs, &polygons)
	case "GeometryCollection":
		for _, part := range o.Geometries {
			if err := t.polygonsOf(m, part, shape); err != nil {
				return err
			}
		}
		return nil
	case "Point", "MultiPoint", "LineString", "MultiLineString":
		t.found.add(m.where, "points or lines among the polygons were left out")
		return nil
	case "", "null":
		return nil
	default:
		return fmt.Errorf("%s: %s: type %q; want Polygon or MultiPolygon", t.name, m.where, o.Type)
	}
	if err != nil {
		return fmt.Errorf("%s: %s: the arcs are not those of a %s: %w", t.name, m.where, o.Type, err)
	}
	for _, rings := range polygons {
		polygon, err := t.join(m, rings)
		if err != nil {
			return err
		}
		if err := m.mend(polygon, shape); err != nil {
			return err
		}
	}
	return nil
}

// join makes rings of arc numbers; ^i is arc i run backwards.
func (t *topoReader) join(m mender, rings [][]int) (orb.Polygon, error) {
	var polygon orb.Polygon
	for _, refs := range rings {
		var ring orb.Ring
		for _, ref := range refs {
			at := max(ref, ^ref)
			if at >= len(t.lines) {
				return nil, fmt.Errorf("%s: %s: names arc %d, and the topology has %d, numbered from 0, or from -1 when run backwards", t.name, m.where, ref, len(t.lines))
			}
			line := t.lines[at]
			if ref < 0 {
				line = slices.Clone(line)
				slices.Reverse(line)
			}
			switch {
			case len(ring) == 0 || len(line) == 0:
			case ring[len(ring)-1] == line[0]: // arcs that follow repeat the last position
				line = line[1:]
			default:
				m.found.add(m.where, "arcs of a ring did not meet and were joined by a straight line")
			}
			ring = append(ring, line...)
		}
		polygon = append(polygon, ring)
	}
	return polygon, nil
}
