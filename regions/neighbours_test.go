package regions_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/regions"
	"weekband/regions/polygons"
)

func squareAt(name string, x, y, side float64) string {
	return fmt.Sprintf(`{"type":"Feature","properties":{"name":%q},"geometry":{"type":"Polygon","coordinates":[[[%g,%g],[%g,%g],[%g,%g],[%g,%g],[%g,%g]]]}}`,
		name, x, y, x+side, y, x+side, y+side, x, y+side, x, y)
}

// squares returns the regions of some features.
func squares(t *testing.T, features ...string) regions.Set {
	t.Helper()
	text := `{"type":"FeatureCollection","features":[` + strings.Join(features, ",") + `]}`
	set, err := polygons.Decode(strings.NewReader(text), "squares.geojson", polygons.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// country returns an object of a file of real borders.
func country(t *testing.T, file, object string) regions.Set {
	t.Helper()
	f, err := os.Open(oracle.Data(t, "us/"+file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	set, err := polygons.Decode(f, file, polygons.Options{Object: object, Name: "name"})
	if err != nil {
		t.Fatal(err)
	}
	return set
}

func ExampleSet_Neighbours() {
	text := `{"type":"FeatureCollection","features":[
{"type":"Feature","properties":{"name":"West"},"geometry":{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,1],[0,0]]]}},
{"type":"Feature","properties":{"name":"East"},"geometry":{"type":"Polygon","coordinates":[[[1,0],[2,0],[2,1],[1,1],[1,0]]]}},
{"type":"Feature","properties":{"name":"Isle"},"geometry":{"type":"Polygon","coordinates":[[[3,0],[4,0],[4,1],[3,1],[3,0]]]}}]}`
	set, err := polygons.Decode(strings.NewReader(text), "vale.geojson", polygons.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, list := range set.Neighbours() {
		for _, n := range list {
			fmt.Printf("%s: %s, border %.0f km, %.0f km apart\n", set.Regions[i].Name, set.Regions[n.Region].Name, n.Border, n.Apart)
		}
	}
	// Output:
	// West: East, border 111 km, 0 km apart
	// East: West, border 111 km, 0 km apart
	// Isle: East, border 0 km, 111 km apart
	// Isle: West, border 0 km, 222 km apart
}

// Four squares around a point: those that meet only there are no neighbours.
// A fifth lies apart, across the antimeridian.
func TestNeighboursByHand(t *testing.T) {
	set := squares(t, squareAt("a", 178, 0, 1), squareAt("b", 179, 0, 1), squareAt("c", 178, 1, 1), squareAt("d", 179, 1, 1), squareAt("far", -179, -1, 1))
	got := set.Neighbours()
	for i, want := range [][]int{{1, 2}, {0, 3}, {0, 3}, {1, 2}} {
		var found []int
		for _, n := range got[i] {
			found = append(found, n.Region)
			if n.Border < 111 || n.Border > 111.2 || n.Apart != 0 { // a degree is 111.195 km
				t.Errorf("%s: %+v", set.Regions[i].Name, n)
			}
		}
		slices.Sort(found)
		if !slices.Equal(found, want) {
			t.Errorf("%s has the neighbours %v, want %v", set.Regions[i].Name, found, want)
		}
	}
	far := got[4]
	if len(far) != 3 || far[0].Region != 1 || far[1].Region != 3 || math.Abs(far[0].Apart-grid.KmPerDegree) > 0.1 {
		t.Errorf("far has %+v, want b 111 km off, then d, aslant", far)
	}
}

// The nearest by looking at all pairs of corners, which is the distance of
// outlines as closely as corners lie.
func TestNearestAgainstAllPairs(t *testing.T) {
	set := country(t, "states-10m.json", "states")
	for i, list := range set.Neighbours() {
		if len(list) == 0 || list[0].Border > 0 {
			continue
		}
		for _, n := range list {
			slow := math.Inf(1)
			for _, p := range corners(set.Regions[i]) {
				for _, q := range corners(set.Regions[n.Region]) {
					slow = min(slow, p.Distance(&q))
				}
			}
			if n.Apart > slow+1e-6 || n.Apart < slow-5-0.01*slow {
				t.Errorf("%s is %.2f km from %s, its corners %.2f km", set.Regions[i].Name, n.Apart, set.Regions[n.Region].Name, slow)
			}
		}
	}
}

func corners(r regions.Region) []grid.Globe {
	var out []grid.Globe
	for _, polygon := range r.Shape {
		for i := 0; i < len(polygon[0]); i += len(polygon[0])/400 + 1 {
			out = append(out, grid.LonLat{Lon: polygon[0][i][0], Lat: polygon[0][i][1]}.Globe())
		}
	}
	return out
}

// Neighbours of states as every atlas shows them, counted from memory. Colorado
// and Arizona, Utah and New Mexico meet in a point only.
func TestNeighboursOfStates(t *testing.T) {
	set := country(t, "states-10m.json", "states")
	got := set.Neighbours()
	for state, want := range map[string]string{
		"Tennessee": "Alabama, Arkansas, Georgia, Kentucky, Mississippi, Missouri, North Carolina, Virginia",
		"Colorado":  "Kansas, Nebraska, New Mexico, Oklahoma, Utah, Wyoming",
		"Utah":      "Arizona, Colorado, Idaho, Nevada, Wyoming",
		"Kansas":    "Colorado, Missouri, Nebraska, Oklahoma",
		"Maine":     "New Hampshire",
		"Kentucky":  "Illinois, Indiana, Missouri, Ohio, Tennessee, Virginia, West Virginia",
	} {
		i := slices.IndexFunc(set.Regions, func(r regions.Region) bool { return r.Name == state })
		var names []string
		for k, n := range got[i] {
			names = append(names, set.Regions[n.Region].Name)
			if k > 0 && n.Border > got[i][k-1].Border {
				t.Errorf("%s: a longer border stands after a shorter one", state)
			}
		}
		slices.Sort(names)
		if found := strings.Join(names, ", "); found != want {
			t.Errorf("%s has the neighbours %s; want %s", state, found, want)
		}
	}
	hawaii := slices.IndexFunc(set.Regions, func(r regions.Region) bool { return r.Name == "Hawaii" })
	if n := got[hawaii]; len(n) != 3 || n[0].Border != 0 || n[0].Apart < 3000 || n[0].Apart > 4200 {
		t.Errorf("Hawaii has %+v, want three some thousands of km off", n)
	}
}

// Neighbours work both ways, for all counties, in good time.
func TestNeighboursOfCounties(t *testing.T) {
	set := country(t, "counties-10m.json", "counties")
	begin := time.Now()
	got := set.Neighbours()
	took := time.Since(begin)
	touching, islands := 0, 0
	for i, list := range got {
		if len(list) > 0 && list[0].Border == 0 {
			islands++
			continue
		}
		for _, n := range list {
			touching++
			back := slices.IndexFunc(got[n.Region], func(m regions.Neighbour) bool { return m.Region == i })
			if back < 0 || math.Abs(got[n.Region][back].Border-n.Border) > 1e-9 {
				t.Errorf("%s has the neighbour %s, which does not have it back", set.Regions[i].Name, set.Regions[n.Region].Name)
			}
		}
	}
	t.Logf("%d regions: %.1f neighbours each, %d without; %v", len(got), float64(touching)/float64(len(got)-islands), islands, took)
	if islands == 0 || islands > 60 {
		t.Errorf("%d of %d counties touch no other", islands, len(got))
	}
}
