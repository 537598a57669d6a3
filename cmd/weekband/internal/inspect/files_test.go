package inspect_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/inspect"
	"weekband/cmd/weekband/internal/skerry"
	"weekband/cmd/weekband/internal/usage"
)

// written writes files and returns their paths in the order of their names.
func written(t *testing.T, files map[string]string) (paths []string) {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	slices.Sort(paths)
	return paths
}

// factsOf lists facts as "name: value".
func factsOf(f *inspect.Finding) (list []string) {
	for _, fact := range f.Facts {
		list = append(list, fact.Name+": "+fact.Value)
	}
	return list
}

// look inspects files and holds the finding to facts, notes and suspicions, each of
// which must be there; a list without any wants none.
func look(t *testing.T, what string, files []string, object string, facts, notes, suspicions []string) {
	t.Helper()
	f, err := inspect.Files(t.Context(), files, "", object)
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return
	}
	for _, c := range []struct{ got, want []string }{{factsOf(f), facts}, {f.Notes, notes}, {f.Suspicions, suspicions}} {
		for _, want := range c.want {
			if !slices.ContainsFunc(c.got, func(s string) bool { return strings.Contains(s, want) }) {
				t.Errorf("%s: no %q in %q", what, want, c.got)
			}
		}
		if c.want == nil && len(c.got) > 0 {
			t.Errorf("%s: %q", what, c.got)
		}
	}
	text := f.Text()
	if clean := strings.HasSuffix(text, "\nNothing looks wrong.\n"); clean != (suspicions == nil) {
		t.Errorf("%s: told as\n%s", what, text)
	}
	for _, want := range append(slices.Clone(notes), suspicions...) {
		if !strings.Contains(text, want) {
			t.Errorf("%s: no %q in\n%s", what, want, text)
		}
	}
}

// month is a grid of 2 × 2 cells of one value.
func month(value int, west float64) string {
	return fmt.Sprintf("ncols 2\nnrows 2\nxllcorner %g\nyllcorner 35\ncellsize 3\n%d.5 %[2]d.5\n%[2]d.5 %[2]d.5\n", west, value)
}

// The twelve months of a year are one data set of twelve layers; fewer, or one on
// another grid, do not go together, and the first is described.
func TestGrids(t *testing.T) {
	dir := t.TempDir()
	if _, err := skerry.Write(dir); err != nil {
		t.Fatal(err)
	}
	year, err := filepath.Glob(filepath.Join(dir, "tavg-*.asc"))
	if err != nil {
		t.Fatal(err)
	}
	look(t, "a year", year, "", []string{"layers: 12", "grid: 2 rows × 12 columns", "as normals: 12 layers in unit C: values -4.93 to 24.33"}, nil, nil)
	look(t, "a season", year[:3], "", []string{"layers: 1", "as normals: no: 3 layers, and normals have 12 or 365"}, nil,
		[]string{"3 files with 3 layers; normals are one file of 12 or 365 layers, or twelve files of one. Only the first is described"})
	moved := written(t, map[string]string{"jan.asc": month(1, -90), "jul.asc": month(25, -87)})
	look(t, "two grids", moved, "", []string{"edges: west -90, south 35, east -84, north 41"}, nil,
		[]string{moved[1] + " lies on another grid: 2 rows × 2 columns, west -87", "2 files with 2 layers"})
}

const (
	outline = `"geometry":{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,1],[0,0]]]}`
	arcs    = `"arcs":[[[0,0],[1,0],[1,1],[0,1],[0,0]]]`
	square  = `{"type":"Polygon","arcs":[[0]],"id":"N","properties":{"name":"Ness"}}`
)

// Properties are counted with what has none of them, and features without ids of
// their own are told; of several objects of TopoJSON one has to be named.
func TestPolygons(t *testing.T) {
	features := written(t, map[string]string{"r.geojson": `{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":"Ness","code":""},` + outline + `},
{"type":"Feature","properties":{"name":"Head","code":"H","rank":null},` + outline + `}]}`})
	look(t, "features", features, "", []string{"regions: 2", "property code: 1 different, such as H; 1 have none", "property name: 2 different, such as Ness", "such as: id 1, name Ness"},
		[]string{"the features have no ids of their own and are counted from 1"}, nil)

	topology := written(t, map[string]string{"r.topojson": `{"type":"Topology",` + arcs + `,"objects":{"coast":` + square + `,"counties":{"type":"GeometryCollection","geometries":[` + square + `]}}}`})
	look(t, "objects", topology, "", []string{"object coast: 1 geometries", "object counties: 1 geometries"}, []string{"the file holds several objects: name one with --object"}, nil)
	look(t, "an object", topology, "counties", []string{"regions: 1", "property id: 1 different, such as N", "property name: 1 different, such as Ness"}, nil, nil)
}

// Places that share a name are noted; those at 0° N 0° E look wrong, and so does an
// empty list.
func TestPlaces(t *testing.T) {
	list := written(t, map[string]string{"a.csv": "name,lat,lon\nNess,38,-47\nNESS,39,-46\nHead,38.5,-45\n", "b.csv": "name,lat,lon\nNess,0,0\nHead,1,2\n", "c.csv": "name,lat,lon\n"})
	look(t, "shared names", list[:1], "", []string{"places: 3", "edges: west -47, south 38, east -45, north 39"}, []string{"2 places share their name with another"}, nil)
	look(t, "at nought", list[1:2], "", []string{"places: 2"}, nil, []string{"1 of the places lie at 0° N 0° E exactly: is their position missing?"})
	look(t, "none", list[2:], "", []string{"places: 0"}, nil, []string{"the list is empty"})
}

// Files of other kinds do not go together, and what cannot be read is an error with
// its name.
func TestRefusals(t *testing.T) {
	files := written(t, map[string]string{"a.csv": "name,lat,lon\nNess,38,-47\n", "b.geojson": "{}", "c.asc": month(1, -90), "d.csv": "id,month,tavg_c\n"})
	for name, c := range map[string]struct {
		files []string
		want  string
		usage bool
	}{
		"places beside a grid":   {[]string{files[0], files[2]}, "a.csv is a list of places; inspect these one by one, only the twelve grids of a year go together", true},
		"polygons beside a grid": {[]string{files[1], files[2]}, "b.geojson is a file of polygons", true},
		"no polygons":            {files[1:2], "b.geojson", false},
		"not there":              {[]string{files[0] + ".gone"}, "a.csv.gone", false},
		"a table of stations":    {files[3:], "as a list of places; tables of stations are read by a build, keys sites and values", false},
	} {
		_, err := inspect.Files(t.Context(), c.files, "", "")
		if _, wrong := errors.AsType[*usage.Error](err); err == nil || !strings.Contains(err.Error(), c.want) || wrong != c.usage {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}
