package regions

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"sort"
	"strings"
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

// Decode reads regions from GeoJSON or TopoJSON. name is the file's, for
// messages. Features that hold no polygon are left out with a warning.
// Features with the same id and name become one region; the same id under two
// names is an error, as are coordinates outside ±180° and ±90° and a property
// that no feature has.
func Decode(r io.Reader, name string, o Options) (Set, error) {
	data, err := io.ReadAll(r)
	if err != nil {
		return Set{}, fmt.Errorf("%s: %w", name, err)
	}
	data = bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))
	var head struct{ Type string }
	if err := unmarshal(data, &head, name); err != nil {
		return Set{}, err
	}
	var features []feature
	found := newFindings(name)
	switch head.Type {
	case "Topology":
		features, err = readTopology(data, name, o.Object, found)
	case "FeatureCollection", "Feature", "Polygon", "MultiPolygon", "GeometryCollection":
		features, err = readGeoJSON(data, name, found)
	case "":
		err = fmt.Errorf("%s: no member \"type\"; want GeoJSON or TopoJSON", name)
	default:
		err = fmt.Errorf("%s: type %q; want a GeoJSON FeatureCollection or polygon, or a TopoJSON Topology", name, head.Type)
	}
	if err != nil {
		return Set{}, err
	}
	set := Set{}
	if set.Regions, err = identify(features, name, o, found); err != nil {
		return Set{}, err
	}
	set.Warnings = found.lines()
	if len(set.Regions) == 0 {
		return Set{}, fmt.Errorf("%s: no feature holds a polygon with any area", name)
	}
	return set, nil
}

// unmarshal decodes JSON and says on which line it went wrong.
func unmarshal(data []byte, into any, name string) error {
	err := json.Unmarshal(data, into)
	if err == nil {
		return nil
	}
	offset := int64(-1)
	if syntax, ok := errors.AsType[*json.SyntaxError](err); ok {
		offset = syntax.Offset
	} else if kind, ok := errors.AsType[*json.UnmarshalTypeError](err); ok {
		offset = kind.Offset
	}
	text := strings.TrimPrefix(err.Error(), "json: ")
	if offset < 0 || offset > int64(len(data)) {
		return fmt.Errorf("%s: %s; want GeoJSON or TopoJSON", name, text)
	}
	before := data[:offset]
	line := bytes.Count(before, []byte("\n")) + 1
	col := len(before) - bytes.LastIndexByte(before, '\n') - 1
	return fmt.Errorf("%s:%d:%d: %s; want GeoJSON or TopoJSON", name, line, max(col, 1), text)
}

// propertyKeys lists the property keys of all features, sorted.
func propertyKeys(features []feature) []string {
	seen := map[string]bool{}
	for _, f := range features {
		for key := range f.properties {
			seen[key] = true
		}
	}
	keys := make([]string, 0, len(seen))
	for key := range seen {
		keys = append(keys, key)
	}
	sort.Strings(keys)
	return keys
}
