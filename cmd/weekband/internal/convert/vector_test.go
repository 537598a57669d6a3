package convert_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/convert"
	"weekband/grid/oracle"
	"weekband/regions"
	"weekband/regions/polygons"
)

const twoSquares = `{"type": "FeatureCollection", "features": [
{"type": "Feature", "properties": {"code": "A", "name": "Sôlenne"}, "geometry": {"type": "Polygon", "coordinates": [[[-97,38],[-96,38],[-96,39],[-97,39],[-97,38]]]}},
{"type": "Feature", "properties": {"code": "B", "name": "Wendrow"}, "geometry": {"type": "Polygon", "coordinates": [[[-96,38],[-95,38],[-95,39],[-96,39],[-96,38]]]}}]}`

// decoded converts a file of polygons and reads the copy.
func decoded(t *testing.T, path, layer string) regions.Set {
	t.Helper()
	if foreign, err := convert.Polygons(path); err != nil || !foreign {
		t.Fatalf("%s: %v, %v", path, foreign, err)
	}
	c := new(convert.Converter)
	defer c.Close()
	copied, how, err := c.Vector(t.Context(), path, layer)
	if err != nil || !strings.HasPrefix(how, "to GeoJSON by ogr2ogr (GDAL ") {
		t.Fatalf("%q, %v", how, err)
	}
	f, err := os.Open(copied)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	set, err := polygons.Decode(f, path, polygons.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// Polygons come back from every kind as they went in, written by GDAL; those
// of the shapefile lie on a plane.
func TestPolygonsOfEveryKind(t *testing.T) {
	oracle.Need(t, "ogr2ogr")
	dir := t.TempDir()
	in := written(t, dir, "in.geojson", twoSquares)
	for _, k := range []struct {
		file, driver string
		options      []string
	}{
		{"shapes.shp", "ESRI Shapefile", []string{"-t_srs", plane, "-segmentize", "0.1", "-lco", "ENCODING=UTF-8"}},
		{"shapes.gpkg", "GPKG", nil},
		{"shapes.fgb", "FlatGeobuf", nil},
		{"shapes.kml", "KML", []string{"-dsco", "NameField=name"}},
	} {
		path := filepath.Join(dir, k.file)
		oracle.Run(t, nil, "ogr2ogr", append(append([]string{"-q", "-f", k.driver}, k.options...), path, in)...)
		before := names(t, dir)
		set := decoded(t, path, "")
		if len(set.Regions) != 2 || names(t, dir) != before {
			t.Errorf("%s: %d regions; %s", k.file, len(set.Regions), names(t, dir))
			continue
		}
		for _, r := range set.Regions {
			west := map[string]float64{"Sôlenne": -97, "Wendrow": -96}[r.Name]
			b := r.Bounds
			const tol = 1e-3 // a shapefile's plane bends what was straight
			if west == 0 || b.West < west-tol || b.West > west+tol || b.North < 39-tol || b.North > 39+0.01 || b.South > 38+tol {
				t.Errorf("%s: %s %v", k.file, r.Name, b)
			}
		}
	}
	var beside []string
	for _, path := range convert.Beside(filepath.Join(dir, "shapes.shp")) {
		beside = append(beside, filepath.Base(path))
	}
	if got := strings.Join(beside, " "); got != "shapes.shx shapes.dbf shapes.prj shapes.cpg" {
		t.Errorf("to the shapefile belong %s", got)
	}
	if foreign, err := convert.Polygons(in); foreign || err != nil {
		t.Errorf("GeoJSON: %v, %v", foreign, err)
	}
}

// Of several layers one must be named; the tool's own words say so.
func TestOneLayerOfSeveral(t *testing.T) {
	oracle.Need(t, "ogr2ogr")
	dir := t.TempDir()
	in := written(t, dir, "in.geojson", twoSquares)
	path := filepath.Join(dir, "several.gpkg")
	oracle.Run(t, nil, "ogr2ogr", "-q", "-f", "GPKG", "-nln", "parishes", path, in)
	oracle.Run(t, nil, "ogr2ogr", "-q", "-f", "GPKG", "-update", "-nln", "lakes", "-where", "code = 'A'", path, in)
	if set := decoded(t, path, "lakes"); len(set.Regions) != 1 {
		t.Errorf("%d regions", len(set.Regions))
	}
	c := new(convert.Converter)
	defer c.Close()
	_, _, err := c.Vector(t.Context(), path, "")
	if err == nil || !strings.Contains(err.Error(), "layer") || !strings.Contains(err.Error(), "ogr2ogr -f GeoJSON") {
		t.Errorf("%v", err)
	}
}
