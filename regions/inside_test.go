package regions_test

import (
	"strings"
	"testing"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"weekband/regions/polygons"
)

// The middle of a horseshoe's bounds lies outside it; Inside does not.
func TestInsideLiesInside(t *testing.T) {
	const text = `{"type":"Feature","properties":{"name":"Horseshoe"},"geometry":{"type":"Polygon","coordinates":
[[[0,0],[9,0],[9,9],[6,9],[6,3],[3,3],[3,9],[0,9],[0,0]],[[7,1],[7,2],[8,2],[8,1],[7,1]]]}}`
	set, err := polygons.Decode(strings.NewReader(text), "horseshoe.geojson", polygons.Options{})
	if err != nil {
		t.Fatal(err)
	}
	r := set.Regions[0]
	at := r.Inside()
	if !planar.MultiPolygonContains(r.Shape, orb.Point{at.Lon, at.Lat}) {
		t.Errorf("%v lies outside", at)
	}
	if center := r.Bounds.Center(); planar.MultiPolygonContains(r.Shape, orb.Point{center.Lon, center.Lat}) {
		t.Error("the middle of the bounds lies inside: this test shows nothing")
	}
}
