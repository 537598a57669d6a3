package polygons_test

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid"
	"weekband/regions"
	"weekband/regions/polygons"
)

func encode(t *testing.T, features ...polygons.Feature) string {
	t.Helper()
	var out bytes.Buffer
	e := polygons.NewEncoder(&out)
	for _, f := range features {
		if err := e.Write(f); err != nil {
			t.Fatal(err)
		}
	}
	if err := e.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestEncode(t *testing.T) {
	got := encode(t,
		polygons.Feature{
			ID:         "a<b",
			Properties: []polygons.Property{{"zeta", 1}, {"alpha", "x\"y"}, {"day", 98.5}},
			// Clockwise, with digits past the sixth and a negative zero.
			Shape: orb.MultiPolygon{{{{math.Copysign(1e-9, -1), 0}, {0, 1}, {1.0000004, 1}, {1.0000004, 0}, {math.Copysign(1e-9, -1), 0}}}},
		},
		polygons.Feature{Shape: orb.MultiPolygon{
			{{{0, 0}, {2, 0}, {2, 2}, {0, 0}}, {{1e-8, 0}, {2e-8, 0}, {2e-8, 1e-8}, {1e-8, 0}}},
			{{{5, 5}, {6, 5}, {6, 6}, {5, 5}}},
		}},
		polygons.Feature{ID: "empty"},
	)
	want := `{"type":"FeatureCollection","features":[
{"type":"Feature","id":"a\u003cb","properties":{"zeta":1,"alpha":"x\"y","day":98.5},"geometry":{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,1],[0,0]]]}},
{"type":"Feature","properties":{},"geometry":{"type":"MultiPolygon","coordinates":[[[[0,0],[2,0],[2,2],[0,0]]],[[[5,5],[6,5],[6,6],[5,5]]]]}},
{"type":"Feature","id":"empty","properties":{},"geometry":null}
]}
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if got := encode(t); got != "{\"type\":\"FeatureCollection\",\"features\":[\n]}\n" {
		t.Errorf("empty collection: %q", got)
	}
}

func TestEncodeRefusesNumbersThatJSONLacks(t *testing.T) {
	e := polygons.NewEncoder(&bytes.Buffer{})
	err := e.Write(polygons.Feature{ID: "7", Properties: []polygons.Property{{"day", math.NaN()}}})
	if err == nil || !strings.Contains(err.Error(), "property day of feature 7") {
		t.Errorf("got %v", err)
	}
}

func TestEncodedRegionsReadBack(t *testing.T) {
	set := shared(t, "states-10m.json", polygons.Options{Object: "states"})
	var features []polygons.Feature
	for _, r := range set.Regions {
		features = append(features, polygons.Feature{ID: r.ID, Properties: []polygons.Property{{"name", r.Name}}, Shape: r.Shape})
	}
	back := decode(t, encode(t, features...), polygons.Options{})
	if len(back.Warnings) != 0 {
		t.Errorf("warnings %q", back.Warnings)
	}
	for i, r := range set.Regions {
		b := back.Regions[i]
		if b.ID != r.ID || b.Name != r.Name || math.Abs(regions.Area(b.Shape)-regions.Area(r.Shape)) > 1e-5*regions.Area(r.Shape) {
			t.Errorf("%s came back as %s %s with %v km²", r.ID, b.ID, b.Name, regions.Area(b.Shape))
		}
	}
}

// Half of a triangle that straddles the box, by the plane's own symmetry: the
// parts inside and outside of any box add to the whole.
func TestAreaWithinAddsUp(t *testing.T) {
	shape := orb.MultiPolygon{{{{-3, 38}, {9, 41}, {2, 55}, {-3, 38}}, {{1, 42}, {2, 46}, {4, 43}, {1, 42}}}}
	whole := regions.Area(shape)
	sum := 0.0
	lons, lats := []float64{-90, 0.5, 3, 90}, []float64{-80, 41, 44.25, 80}
	for i := 1; i < len(lons); i++ {
		for j := 1; j < len(lats); j++ {
			part := regions.AreaWithin(shape, grid.Box{West: lons[i-1], East: lons[i], South: lats[j-1], North: lats[j]})
			if part < 0 {
				t.Errorf("column %d row %d: %v km²", i, j, part)
			}
			sum += part
		}
	}
	if math.Abs(sum-whole) > 1e-6 {
		t.Errorf("parts add to %v km², the whole is %v", sum, whole)
	}
	if got := regions.AreaWithin(shape, grid.Box{West: -10, East: 10, South: 30, North: 60}); math.Abs(got-whole) > 1e-9 {
		t.Errorf("within a box around it: %v km², want %v", got, whole)
	}
}
