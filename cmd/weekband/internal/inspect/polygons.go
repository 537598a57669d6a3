package inspect

import (
	"bytes"
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/regions"
	"weekband/regions/polygons"
)

// inspectPolygons tells of regions, or of the objects of a TopoJSON file when
// it holds several and none is named.
func inspectPolygons(in *inputs.Set, path, object string) (*Finding, error) {
	opened, err := in.AsJSON(path, object)
	if err != nil {
		return nil, err
	}
	file, err := os.Open(opened)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	data, notes, err := polygons.Text(file, path)
	if err != nil {
		return nil, err
	}
	f := newFinding("polygons", path)
	f.note(notes...)
	described := describe(data, object)
	if object == "" && len(described.objects) > 1 {
		for _, o := range described.objects {
			f.fact("object "+o.name, "%d geometries", o.count)
		}
		f.note("the file holds several objects: name one with --object here, and as object: … in a recipe")
		return f, nil
	}
	set, err := polygons.Decode(bytes.NewReader(data), path, polygons.Options{Object: object})
	if err != nil {
		return nil, err
	}
	f.note(in.Notes...)
	f.note(set.Warnings...)
	if described.counted {
		f.note("the features have no ids of their own and are counted from 1; a recipe may name a property instead, as id: …")
	}
	f.describePolygons(set, described)
	return f, nil
}

// describePolygons lists what regions hold, and the properties of their features.
func (f *Finding) describePolygons(set regions.Set, told described) {
	area := 0.0
	for _, r := range set.Regions {
		area += regions.Area(r.Shape)
	}
	f.fact("regions", "%d", len(set.Regions))
	f.fact("edges", "%v", set.Bounds())
	f.fact("area", "%.0f km² in all", area)
	for _, r := range set.Regions[:min(3, len(set.Regions))] {
		f.fact("such as", "id %s, name %s", r.ID, r.Name)
	}
	for _, p := range told.properties {
		f.fact("property "+p.key, "%s", p.words(told.features))
	}
}
