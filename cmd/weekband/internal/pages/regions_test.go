package pages

import (
	"fmt"
	"testing"

	"github.com/paulmach/orb"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/grid"
	"weekband/regions"
	"weekband/regions/places"
)

// A region's page names its places by rank, then those without one by name, 24 at
// most; places outside all regions are on none.
func TestPlacesBy(t *testing.T) {
	square := func(id string, west float64) regions.Region {
		shape := orb.MultiPolygon{{{{west, 0}, {west + 1, 0}, {west + 1, 1}, {west, 1}, {west, 0}}}}
		return regions.Region{ID: id, Name: id, Shape: shape, Bounds: regions.BoundsOf(shape)}
	}
	in := &inputs.Set{Areas: regions.Set{Regions: []regions.Region{square("W", 0), square("E", 1)}}}
	add := func(name string, lon float64, rank int) {
		in.Places = append(in.Places, places.Place{Name: name, At: grid.LonLat{Lon: lon, Lat: 0.5}, Rank: rank})
	}
	add("Zennet", 0.5, 0)
	add("Ashby", 0.5, 0)
	add("Carrow", 0.5, 2)
	add("Port", 0.5, 1)
	add("Far", 5, 1)
	for i := range 30 {
		add(fmt.Sprintf("Hamlet %02d", 30-i), 1.5, 0)
	}
	lists := placesBy(in)
	for i, want := range []string{"Port", "Carrow", "Ashby", "Zennet"} {
		if len(lists[0]) != 4 || lists[0][i].Name != want {
			t.Fatalf("in the west %v, want %s in place %d", lists[0], want, i)
		}
	}
	if east := lists[1]; len(east) != 24 || east[0].Name != "Hamlet 01" || east[23].Name != "Hamlet 24" {
		t.Errorf("in the east %v", east)
	}
}
