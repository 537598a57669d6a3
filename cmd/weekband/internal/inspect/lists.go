package inspect

import (
	"bytes"
	"fmt"
	"os"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/grid"
	"weekband/regions"
	"weekband/regions/places"
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
	for _, p := range described.properties {
		f.fact("property "+p.key, "%s", p.words(described.features))
	}
	return f, nil
}

// inspectPlaces tells of a list of places.
func inspectPlaces(path string) (*Finding, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	list, notes, err := places.Decode(file, path)
	if err != nil {
		return nil, fmt.Errorf("%w\n    as a list of places; tables of stations are read by a build, keys sites and values", err)
	}
	f := newFinding("places", path)
	f.note(notes...)
	f.fact("places", "%d", len(list))
	if len(list) == 0 {
		f.suspect("the list is empty")
		return f, nil
	}
	box := grid.Box{West: 180, East: -180, South: 90, North: -90}
	seen := map[string]int{}
	nowhere := 0
	for _, p := range list {
		box.West, box.East = min(box.West, p.At.Lon), max(box.East, p.At.Lon)
		box.South, box.North = min(box.South, p.At.Lat), max(box.North, p.At.Lat)
		seen[places.Fold(p.Name)]++
		if p.At.Lon == 0 && p.At.Lat == 0 {
			nowhere++
		}
	}
	f.fact("edges", "%v", box)
	double := 0
	for _, n := range seen {
		if n > 1 {
			double += n
		}
	}
	if double > 0 {
		f.note(fmt.Sprintf("%d places share their name with another", double))
	}
	if nowhere > 0 {
		f.suspect("%d of the places lie at 0° N 0° E exactly: is their position missing?", nowhere)
	}
	return f, nil
}
