package regions_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"weekband/regions"
	"weekband/regions/polygons"
)

func ExampleSet_Titles() {
	s := regions.Set{Regions: []regions.Region{
		{ID: "1", Name: "Carrow", Within: "Westmark"}, {ID: "2", Name: "Carrow", Within: "Eastrey"}, {ID: "3", Name: "Hollin"},
		{ID: "4", Name: "Venn"}, {ID: "5", Name: "Venn"}, {ID: "6", Name: "Merrow", Within: "Merrow"},
	}}
	fmt.Println(strings.Join(s.Titles(), "; "))
	// Output: Carrow, Westmark; Carrow, Eastrey; Hollin; Venn (4); Venn (5); Merrow
}

func TestWithinIsRead(t *testing.T) {
	const text = `{"type":"FeatureCollection","features":[
		{"type":"Feature","properties":{"code":"1","name":"Carrow","land":"Westmark"},"geometry":{"type":"Polygon","coordinates":[[[0,0],[1,0],[1,1],[0,0]]]}},
		{"type":"Feature","properties":{"code":"2","name":"Carrow","land":"Eastrey"},"geometry":{"type":"Polygon","coordinates":[[[2,0],[3,0],[3,1],[2,0]]]}}]}`
	set, err := polygons.Decode(strings.NewReader(text), "vale.geojson", polygons.Options{ID: "code", Within: "land"})
	if err != nil {
		t.Fatal(err)
	}
	if got, want := set.Titles(), []string{"Carrow, Westmark", "Carrow, Eastrey"}; !slices.Equal(got, want) {
		t.Errorf("titles %q, want %q", got, want)
	}
	if _, err := polygons.Decode(strings.NewReader(text), "vale.geojson", polygons.Options{Within: "state"}); err == nil || !strings.Contains(err.Error(), "there are code, land, name") {
		t.Errorf("a property that is not there: %v", err)
	}
}
