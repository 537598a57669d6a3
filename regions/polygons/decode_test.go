package polygons_test

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"weekband/grid/oracle"
	"weekband/regions"
	"weekband/regions/internal/planar"
	"weekband/regions/polygons"
)

// unit is a square of one degree, counter-clockwise.
const unit = `[[[10,50],[11,50],[11,51],[10,51],[10,50]]]`

func collection(features ...string) string {
	return `{"type":"FeatureCollection","features":[` + strings.Join(features, ",") + `]}`
}

func polygon(properties, coordinates string) string {
	return fmt.Sprintf(`{"type":"Feature","properties":%s,"geometry":{"type":"Polygon","coordinates":%s}}`, properties, coordinates)
}

func decode(t *testing.T, text string, o polygons.Options) regions.Set {
	t.Helper()
	set, err := polygons.Decode(strings.NewReader(text), "fields.geojson", o)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

func TestDecodeGeoJSONForms(t *testing.T) {
	bare := `{"type":"Polygon","coordinates":` + unit + `}`
	for name, text := range map[string]string{
		"collection": collection(polygon(`{}`, unit)),
		"feature":    polygon(`null`, unit),
		"polygon":    bare,
		"multi":      `{"type":"MultiPolygon","coordinates":[` + unit + `]}`,
		"geometries": `{"type":"GeometryCollection","geometries":[` + bare + `]}`,
		"heights":    `{"type":"Polygon","coordinates":[[[10,50,7],[11,50,7],[11,51,7],[10,51,7],[10,50,7]]]}`,
		"with BOM":   "\ufeff" + bare,
	} {
		set := decode(t, text, polygons.Options{})
		if len(set.Regions) != 1 || len(set.Warnings) != 0 {
			t.Errorf("%s: %+v", name, set)
			continue
		}
		want := orb.MultiPolygon{{{{10, 50}, {11, 50}, {11, 51}, {10, 51}, {10, 50}}}}
		if r := set.Regions[0]; !orb.Equal(r.Shape, want) || r.ID != "1" || r.Name != "1" {
			t.Errorf("%s: got %+v", name, r)
		}
	}
}

func TestDecodeIdentity(t *testing.T) {
	text := collection(
		`{"type":"Feature","id":7,"properties":{"code":"A1","label":"Ashby","name":"Ash"},"geometry":{"type":"Polygon","coordinates":`+unit+`}}`,
		`{"type":"Feature","id":"x","properties":{"code":12,"label":"Birk","name":"Bir"},"geometry":{"type":"Polygon","coordinates":`+unit+`}}`,
	)
	for _, c := range []struct {
		options polygons.Options
		want    string
	}{
		{polygons.Options{}, "7=Ash x=Bir"},
		{polygons.Options{ID: "id", Name: "label"}, "7=Ashby x=Birk"},
		{polygons.Options{ID: "code", Name: "code"}, "A1=A1 12=12"},
	} {
		var got []string
		for _, r := range decode(t, text, c.options).Regions {
			got = append(got, r.ID+"="+r.Name)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%+v: got %v, want %s", c.options, got, c.want)
		}
	}
}

func TestDecodeJoinsPartsOfOneRegion(t *testing.T) {
	other := strings.ReplaceAll(unit, "[1", "[-1")
	set := decode(t, collection(polygon(`{"k":"a","name":"Ash"}`, unit), polygon(`{"k":"b"}`, unit), polygon(`{"k":"a","name":"Ash"}`, other)),
		polygons.Options{ID: "k"})
	if len(set.Regions) != 2 || len(set.Regions[0].Shape) != 2 || set.Regions[0].Bounds.West != -11 || len(set.Warnings) != 2 {
		t.Errorf("got %+v", set)
	}
}

func TestDecodeMends(t *testing.T) {
	for name, c := range map[string]struct{ rings, warning string }{
		"open":     {`[[[10,50],[11,50],[11,51],[10,51]]]`, "not closed"},
		"wound":    {`[[[10,50],[10,51],[11,51],[11,50],[10,50]]]`, "wrong way round"},
		"repeated": {`[[[10,50],[11,50],[11,50],[11,51],[10,51],[10,50]]]`, "repeated"},
		"flat":     {`[[[10,50],[11,50],[11,51],[10,51],[10,50]],[[10.2,50.2],[10.4,50.4],[10.2,50.2]]]`, "fewer than four"},
	} {
		set := decode(t, collection(polygon(`{}`, c.rings)), polygons.Options{})
		want := orb.Ring{{10, 50}, {11, 50}, {11, 51}, {10, 51}, {10, 50}}
		if got := set.Regions[0].Shape; len(got) != 1 || len(got[0]) != 1 || !orb.Equal(got[0][0], want) {
			t.Errorf("%s: got %v", name, got)
		}
		if len(set.Warnings) != 1 || !strings.Contains(set.Warnings[0], c.warning) || !strings.HasPrefix(set.Warnings[0], "fields.geojson: 1 × ") {
			t.Errorf("%s: warnings %q, want one with %q", name, set.Warnings, c.warning)
		}
	}
	holes := decode(t, collection(polygon(`{}`, `[[[10,50],[11,50],[11,51],[10,51],[10,50]],[[10.2,50.2],[10.4,50.2],[10.4,50.4],[10.2,50.2]]]`)), polygons.Options{})
	if hole := holes.Regions[0].Shape[0][1]; hole.Orientation() != orb.CW || len(holes.Warnings) != 1 {
		t.Errorf("hole %v, warnings %q; want it turned", hole, holes.Warnings)
	}
}

func TestDecodeRefuses(t *testing.T) {
	one := polygon(`{"code":"A","name":"Ash"}`, unit)
	for name, c := range map[string]struct {
		text    string
		options polygons.Options
		want    string
	}{
		"metres":      {collection(polygon(`{}`, `[[[445000,5540000],[446000,5540000],[446000,5541000],[445000,5540000]]]`)), polygons.Options{}, "projected metres"},
		"swapped":     {collection(polygon(`{}`, `[[[42,-91],[43,-91],[43,-90],[42,-91]]]`)), polygons.Options{}, "swapped"},
		"unknown id":  {collection(one), polygons.Options{ID: "GEOID"}, `fields.geojson: no feature has a property "GEOID"; there are code, name`},
		"some lack":   {collection(one, polygon(`{"name":"B"}`, unit)), polygons.Options{ID: "code"}, `feature 2 has no value for property "code"`},
		"two names":   {collection(one, polygon(`{"code":"A","name":"Birk"}`, unit)), polygons.Options{ID: "code"}, `id "A" is both "Ash" and "Birk"`},
		"not JSON":    {"{\n\"type\": Polygon}", polygons.Options{}, "fields.geojson:2:9: "},
		"not GeoJSON": {`{"rows":[]}`, polygons.Options{}, `no member "type"`},
		"other type":  {`{"type":"Sphere"}`, polygons.Options{}, `type "Sphere"`},
		"only points": {collection(`{"type":"Feature","geometry":{"type":"Point","coordinates":[1,2]}}`), polygons.Options{}, "no feature holds a polygon"},
		"short":       {collection(polygon(`{}`, `[[[1],[2],[3],[1]]]`)), polygons.Options{}, "a position of 1 numbers"},
		"wrong depth": {collection(polygon(`{}`, `[[1,2],[3,4]]`)), polygons.Options{}, "coordinates[0][0] is 1; want a list"},
		"the pole":    {collection(polygon(`{}`, `[[[-90,80],[0,80],[90,80],[179,80],[-90,80]]]`)), polygons.Options{}, "goes round the pole"},
	} {
		_, err := polygons.Decode(strings.NewReader(c.text), "fields.geojson", c.options)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %q", name, err, c.want)
		}
	}
}

func TestDecodeLeavesOutPointsWithAWarning(t *testing.T) {
	set := decode(t, collection(`{"type":"Feature","geometry":null}`, polygon(`{}`, unit)), polygons.Options{})
	if len(set.Regions) != 1 || len(set.Warnings) != 1 || !strings.Contains(set.Warnings[0], "first in feature 1") {
		t.Errorf("got %+v", set)
	}
}

// A box from 170° E to 170° W with a hole across the line, by hand: two
// halves of 10° less 1° of hole each.
func TestDecodeCutsAtTheAntimeridian(t *testing.T) {
	for name, rings := range map[string]string{
		"from the east": `[[[170,-10],[-170,-10],[-170,10],[170,10],[170,-10]],[[179,-1],[179,1],[-179,1],[-179,-1],[179,-1]]]`,
		"from the west": `[[[-170,10],[170,10],[170,-10],[-170,-10],[-170,10]],[[-179,1],[-179,-1],[179,-1],[179,1],[-179,1]]]`,
	} {
		set := decode(t, collection(polygon(`{}`, rings)), polygons.Options{})
		r := set.Regions[0]
		area := 0.0
		var lines []orb.LineString
		for _, p := range r.Shape {
			for i, ring := range p {
				b := ring.Bound()
				if b.Right()-b.Left() > 10 || (ring.Orientation() == orb.CCW) != (i == 0) {
					t.Errorf("%s: ring %v", name, ring)
				}
				lines = append(lines, orb.LineString(ring))
				area += shoelace(ring)
			}
		}
		if err := planar.Check(planar.SegmentsOf(lines)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if len(r.Shape) != 2 || math.Abs(area-(400-4)) > 1e-9 {
			t.Errorf("%s: area %v in %d parts, want 396 in 2", name, area, len(r.Shape))
		}
		if len(set.Warnings) != 1 || !strings.Contains(set.Warnings[0], "antimeridian") {
			t.Errorf("%s: warnings %q", name, set.Warnings)
		}
	}
	whole := decode(t, collection(polygon(`{}`, `[[[-180,-90],[180,-90],[180,90],[-180,90],[-180,-90]]]`)), polygons.Options{})
	if len(whole.Warnings) != 0 || math.Abs(regions.Area(whole.Regions[0].Shape)-510065621.724089) > 1e-3 {
		t.Errorf("the whole world has %.6f km², want 510065621.724089 (WGS 84)", regions.Area(whole.Regions[0].Shape))
	}
}

func shoelace(ring orb.Ring) float64 {
	sum := 0.0
	for i := 1; i < len(ring); i++ {
		sum += ring[i-1][0]*ring[i][1] - ring[i][0]*ring[i-1][1]
	}
	return sum / 2
}

// The example of the TopoJSON specification, section 1.1, cut down to its
// polygon, and the same quantized as in its section 1.2 (from memory).
func TestDecodeTopoJSON(t *testing.T) {
	plain := `{"type":"Topology","objects":{"example":{"type":"GeometryCollection","geometries":[
		{"type":"Polygon","properties":{"prop0":"value0"},"arcs":[[-2]]}]}},
		"arcs":[[[102,0],[103,1]],[[100,0],[101,0],[101,1],[100,1],[100,0]]]}`
	quantized := `{"type":"Topology","transform":{"scale":[0.0005000500050005,0.00010001000100010001],"translate":[100,0]},
		"objects":{"example":{"type":"GeometryCollection","geometries":[
		{"type":"Polygon","properties":{"prop0":"value0"},"arcs":[[1]]}]}},
		"arcs":[[[4000,0],[1999,9999]],[[0,0],[0,9999],[2000,0],[0,-9999],[-2000,0]]]}`
	for name, text := range map[string]string{"plain": plain, "quantized": quantized} {
		set := decode(t, text, polygons.Options{ID: "prop0"})
		b := set.Regions[0].Bounds
		for _, d := range []float64{b.West - 100, b.East - 101, b.South, b.North - 1} {
			if math.Abs(d) > 2e-4 {
				t.Errorf("%s: bounds %v", name, b)
			}
		}
		if ring := set.Regions[0].Shape[0][0]; ring.Orientation() != orb.CCW || set.Regions[0].ID != "value0" || len(set.Warnings) != 0 {
			t.Errorf("%s: %+v", name, set)
		}
	}
}

func TestDecodeTopoJSONObjects(t *testing.T) {
	text := `{"type":"Topology","objects":{
		"east":{"type":"Polygon","id":1,"arcs":[[0,1]]},
		"both":{"type":"GeometryCollection","geometries":[
			{"type":"GeometryCollection","geometries":[{"type":"Polygon","id":"w","arcs":[[-1,2]]}]},
			{"type":"GeometryCollection","id":"all","geometries":[{"type":"Polygon","arcs":[[0,1]]},{"type":"MultiPolygon","arcs":[[[2,-1]]]}]},
			{"type":null,"id":"none"}]}},
		"arcs":[[[1,0],[1,1]],[[1,1],[2,1],[2,0],[1,0]],[[1,0],[0,0],[0,1],[1,1]]]}`
	set := decode(t, text, polygons.Options{Object: "both"})
	if len(set.Regions) != 2 || set.Regions[0].ID != "w" || set.Regions[1].ID != "all" || len(set.Regions[1].Shape) != 2 {
		t.Errorf("got %+v", set)
	}
	for object, want := range map[string]string{
		"": "several objects; say which of both, east", "north": `no object "north"; it holds both, east`,
	} {
		if _, err := polygons.Decode(strings.NewReader(text), "a.json", polygons.Options{Object: object}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("object %q: %v, want %q", object, err, want)
		}
	}
	broken := strings.Replace(text, "[[0,1]]", "[[0,9]]", 1)
	if _, err := polygons.Decode(strings.NewReader(broken), "a.json", polygons.Options{Object: "east"}); err == nil || !strings.Contains(err.Error(), "arc 9, and the topology has 3") {
		t.Errorf("got %v", err)
	}
}

func shared(t testing.TB, file string, o polygons.Options) regions.Set {
	t.Helper()
	f, err := os.Open(oracle.Data(t, "us/"+file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	set, err := polygons.Decode(f, file, o)
	if err != nil {
		t.Fatal(err)
	}
	return set
}

func TestDecodeRealFiles(t *testing.T) {
	for _, c := range []struct {
		file    string
		options polygons.Options
		regions int // with a polygon of some area at the file's resolution
		id      string
		name    string
		inner   int // at least
	}{
		{"states-10m.json", polygons.Options{Object: "states"}, 56, "19", "Iowa", 100},
		{"counties-10m.json", polygons.Options{Object: "counties"}, 3230, "19153", "Polk", 8900},
		{"climate-divisions.geojson", polygons.Options{ID: "id", Name: "id"}, 345, "AL_CD1", "AL_CD1", 800},
	} {
		set := shared(t, c.file, c.options)
		r, ok := set.ByID(c.id)
		if len(set.Regions) != c.regions || !ok || r.Name != c.name {
			t.Errorf("%s: %d regions, %s is %q", c.file, len(set.Regions), c.id, r.Name)
		}
		topology := set.Topology()
		if n := len(topology.Inner()); n < c.inner {
			t.Errorf("%s: %d shared borders, want at least %d", c.file, n, c.inner)
		}
		for i, shape := range topology.Shapes() {
			if got, want := regions.Area(shape), regions.Area(set.Regions[i].Shape); math.Abs(got-want) > 1e-9*want {
				t.Errorf("%s: %s is %v km² from arcs, %v before", c.file, set.Regions[i].Name, got, want)
			}
		}
	}
}
