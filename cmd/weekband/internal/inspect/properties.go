package inspect

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
)

// described is what the features of GeoJSON, or of one object of TopoJSON, say
// about themselves.
type described struct {
	objects    []object // of TopoJSON
	features   int
	counted    bool // no feature has an id of its own
	properties []property
}

type object struct {
	name  string
	count int // of geometries
}

// property is what the features of a file say under one key; "id" may be their
// own member.
type property struct {
	key, example     string
	given, different int
}

// words tells what a property may serve for.
func (p property) words(features int) string {
	words := fmt.Sprintf("%d different, such as %s", p.different, p.example)
	if p.given < features {
		words += fmt.Sprintf("; %d have none", features-p.given)
	}
	return words
}

// member is a feature of GeoJSON or a geometry of TopoJSON (specification
// 1.0, 2.2).
type member struct {
	ID         any
	Properties map[string]any
	Geometries []member
}

// describe lists properties and objects. Data that are no JSON have none:
// reading them as regions tells why.
func describe(data []byte, name string) (d described) {
	var doc struct {
		Features []member
		Objects  map[string]member
	}
	if err := json.Unmarshal(data, &doc); err != nil {
		return d
	}
	for _, key := range slices.Sorted(maps.Keys(doc.Objects)) {
		d.objects = append(d.objects, object{key, max(1, len(doc.Objects[key].Geometries))})
		if key == name || len(doc.Objects) == 1 {
			doc.Features = doc.Objects[key].Geometries
		}
	}
	d.features = len(doc.Features)
	d.counted = !slices.ContainsFunc(doc.Features, func(m member) bool { return m.ID != nil })
	d.properties = propertiesOf(doc.Features)
	return d
}

func propertiesOf(features []member) []property {
	values := map[string]map[string]bool{}
	found := map[string]*property{}
	add := func(key string, value any) {
		if value == nil || value == "" {
			return
		}
		text := fmt.Sprint(value)
		p := found[key]
		if p == nil {
			p = &property{key: key, example: text}
			found[key], values[key] = p, map[string]bool{}
		}
		p.given++
		values[key][text] = true
		p.different = len(values[key])
	}
	for _, f := range features {
		if _, twice := f.Properties["id"]; !twice {
			add("id", f.ID)
		}
		for key, value := range f.Properties {
			add(key, value)
		}
	}
	var list []property
	for _, key := range slices.Sorted(maps.Keys(found)) {
		list = append(list, *found[key])
	}
	return list
}
