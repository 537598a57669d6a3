package polygons

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"

	"weekband/regions"
)

// Options say how to read a file of regions. The zero value suits most.
type Options struct {
	// Object names the TopoJSON object to read. It may be empty when the file
	// holds only one.
	Object string
	// ID is the property that holds a region's id, "id" for the feature's own
	// member. Empty: the feature's id if it has one, else its ordinal from 1.
	ID string
	// Name is the property that holds a region's name. Empty: a property
	// spelled "name" in any case, else the id.
	Name string
	// Within is the property that holds what a region lies in, for those that
	// share their name. Empty: not known.
	Within string
}

// Decode reads regions from GeoJSON or TopoJSON, as Text does. name is the
// file's, for messages.
//
// Features that hold no polygon are left out with a warning. Features with the
// same id and name become one region. Rings that cross themselves, spikes,
// misplaced holes and polygons that lie over each other are mended as
// ground.Mend says, with a warning. The same id under two names is an error, as
// are coordinates that are no degrees, a reference system other than WGS 84 and
// a property that no feature has.
func Decode(r io.Reader, name string, o Options) (regions.Set, error) {
	data, notes, err := Text(r, name)
	if err != nil {
		return regions.Set{}, err
	}
	found := newFindings(name)
	found.notes = notes
	features, err := read(data, name, o.Object, found)
	if err != nil {
		return regions.Set{}, err
	}
	set := regions.Set{}
	if set.Regions, err = identify(features, name, o, found); err != nil {
		return regions.Set{}, err
	}
	if err := unite(&set, name, found); err != nil {
		return regions.Set{}, err
	}
	set.Warnings = found.lines()
	if len(set.Regions) == 0 {
		return regions.Set{}, fmt.Errorf("%s: no feature holds a polygon with any area%s", name, found.instead())
	}
	return set, nil
}

// read returns the features of a document.
func read(data []byte, name, object string, found *findings) ([]feature, error) {
	var head struct {
		Type string
		CRS  json.RawMessage
	}
	if err := unmarshal(data, &head, name); err != nil {
		return nil, err
	}
	if key, at, times := repeated(data); times > 0 {
		found.note("line %d: the key %q stands twice in one object, and the later value counts; %d such keys in all", bytes.Count(data[:at], []byte("\n"))+1, key, times)
	}
	if err := checkCRS(head.CRS, name, found); err != nil {
		return nil, err
	}
	switch head.Type {
	case "Topology":
		return readTopology(data, name, object, found)
	case "FeatureCollection", "Feature", "Polygon", "MultiPolygon", "GeometryCollection":
		return readGeoJSON(data, name, found)
	case "":
		return nil, fmt.Errorf("%s: no member \"type\"; want GeoJSON or TopoJSON", name)
	}
	return nil, fmt.Errorf("%s: type %q; want a GeoJSON FeatureCollection or polygon, or a TopoJSON Topology", name, head.Type)
}
