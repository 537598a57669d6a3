package atlas

import (
	"testing"

	"weekband/regions/places"
)

// Maps name places of a list with ranks, however long, and of one without only while
// it may be one of towns.
func TestLabelledPlaces(t *testing.T) {
	towns, codes := make([]places.Place, 1000), make([]places.Place, 1001)
	ranked := make([]places.Place, 1001)
	ranked[500].Rank = 1
	for name, c := range map[string]struct {
		list []places.Place
		want int
	}{"towns": {towns, 1000}, "postal codes": {codes, 0}, "ranked": {ranked, 1001}, "none": {nil, 0}} {
		if got := len(labelled(c.list)); got != c.want {
			t.Errorf("%s: %d of %d are labelled, want %d", name, got, len(c.list), c.want)
		}
	}
}
