package atlas

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"

	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid"
	"weekband/regions"
	"weekband/regions/places"
)

// two is a mainland and an island group far off it.
func two() regions.Set {
	ring := func(w, s, e, n float64) orb.MultiPolygon {
		return orb.MultiPolygon{{{{w, s}, {e, s}, {e, n}, {w, n}, {w, s}}}}
	}
	var set regions.Set
	for name, shape := range map[string]orb.MultiPolygon{"Main": ring(0, 40, 8, 46), "Isles": ring(20, 30, 21, 31)} {
		set.Regions = append(set.Regions, regions.Region{ID: name, Name: name, Shape: shape, Bounds: regions.BoundsOf(shape)})
	}
	return set
}

// Regions and places go either to the main map or to the inset.
func TestTerritoryWithInsets(t *testing.T) {
	in := &inputs.Set{Areas: two(), Places: []places.Place{
		{Name: "Ness", At: grid.LonLat{Lon: 20.5, Lat: 30.5}}, {Name: "Port", At: grid.LonLat{Lon: 2, Lat: 42}},
	}}
	r := &recipe.Recipe{Looks: recipe.Looks{Insets: []recipe.Inset{{Title: "Far Isles", Box: grid.Box{West: 18, South: 28, East: 24, North: 33}}}}}
	got, err := Territory(r, in, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Regions) != 1 || got.Regions[0].Name != "Main" || len(got.Places) != 1 || got.Places[0].Name != "Port" {
		t.Errorf("main map: %+v", got)
	}
	inset := got.Insets[0]
	if inset.Title != "Far Isles" || len(inset.Regions) != 1 || inset.Regions[0].Name != "Isles" || len(inset.Places) != 1 ||
		inset.Extent != (grid.Box{West: 20, South: 30, East: 21, North: 31}) {
		t.Errorf("inset: %+v", inset)
	}
}

func TestInsetRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		boxes []grid.Box
		want  string
	}{
		"off the regions": {[]grid.Box{{West: 50, South: 0, East: 60, North: 10}}, `insets[1] "A": its box (west 50, south 0, east 60, north 10) holds no region`},
		"all regions":     {[]grid.Box{{West: 18, South: 28, East: 24, North: 33}, {West: -1, South: 39, East: 9, North: 47}}, "nothing is left for the main map"},
	} {
		var insets []recipe.Inset
		for i, box := range c.boxes {
			insets = append(insets, recipe.Inset{Title: string(rune('A' + i)), Box: box})
		}
		in := &inputs.Set{Areas: two()}
		if err := in.CheckInsets(insets); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
