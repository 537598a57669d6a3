package polygons_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"weekband/regions/polygons"
)

func FuzzDecode(f *testing.F) {
	f.Add(collection(polygon(`{"name":"a"}`, unit)))
	f.Add(`{"type":"Topology","transform":{"scale":[1,1],"translate":[0,0]},"objects":{"a":{"type":"Polygon","arcs":[[0]]}},"arcs":[[[0,0],[5,0],[0,5],[-5,-5]]]}`)
	f.Add(collection(polygon(`{}`, `[[[170,0],[-170,0],[-170,9],[170,0]]]`)))
	addFiles(f, "*.geojson*")
	f.Fuzz(checkDecoded)
}

// The same, from topologies.
func FuzzTopology(f *testing.F) {
	addFiles(f, "*.topojson")
	f.Fuzz(checkDecoded)
}

// addFiles adds broken files as seeds.
func addFiles(f *testing.F, pattern string) {
	f.Helper()
	files, err := filepath.Glob(filepath.Join("testdata/broken", pattern))
	if err != nil || len(files) == 0 {
		f.Fatal("no seeds", err)
	}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
}

// checkDecoded holds what Decode promises of any text: an error, or regions
// with closed rings that run the right way inside the world.
func checkDecoded(t *testing.T, text string) {
	set, err := polygons.Decode(strings.NewReader(text), "fuzz", polygons.Options{})
	if err != nil {
		if !strings.HasPrefix(err.Error(), "fuzz:") {
			t.Errorf("the error does not begin with the file: %v", err)
		}
		return
	}
	for _, r := range set.Regions {
		if r.Bounds.West < -180 || r.Bounds.East > 180 || r.Bounds.South < -90 || r.Bounds.North > 90 {
			t.Errorf("bounds %v", r.Bounds)
		}
		for _, p := range r.Shape {
			for i, ring := range p {
				if len(ring) < 4 || ring[0] != ring[len(ring)-1] || (shoelaceAbout(ring) > 0) != (i == 0) {
					t.Errorf("ring %d of %s: %v", i, r.ID, ring)
				}
			}
		}
	}
}

// shoelaceAbout is shoelace about the first vertex, which keeps its sign for
// tiny rings.
func shoelaceAbout(ring orb.Ring) float64 {
	sum, o := 0.0, ring[0]
	for i := 1; i < len(ring); i++ {
		sum += (ring[i-1][0]-o[0])*(ring[i][1]-o[1]) - (ring[i][0]-o[0])*(ring[i-1][1]-o[1])
	}
	return sum
}
