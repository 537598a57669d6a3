package places_test

import (
	"fmt"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/regions/places"
)

const list = "name,lat,lon,code,region,rank\nMerrowmouth,38.25,-45.5,M10,Lowmere,1\n\"Saint Aldwyn, Upper\",39,-46,M22,,2\nÉlmere,37.5,-44.25,,,\nElmerton,37,-44,M3,,3\n"

func ExampleFind() {
	all, _, err := places.Decode(strings.NewReader(list), "places.csv")
	if err != nil {
		fmt.Println(err)
		return
	}
	found, exact := places.Find(all, "elmere")
	fmt.Println(found[0].Name, exact)
	found, exact = places.Find(all, "merowmouth")
	fmt.Println(found[0].Name, exact)
	// Output:
	// Élmere true
	// Merrowmouth false
}

func TestDecode(t *testing.T) {
	all, _, err := places.Decode(strings.NewReader("\ufeff"+list), "places.csv")
	if err != nil || len(all) != 4 {
		t.Fatalf("%v, %v", all, err)
	}
	want := places.Place{Name: "Merrowmouth", At: grid.LonLat{Lon: -45.5, Lat: 38.25}, Code: "M10", Region: "Lowmere", Rank: 1}
	if all[0] != want {
		t.Errorf("got %+v, want %+v", all[0], want)
	}
}

func TestDecodeNamesEveryWrongLine(t *testing.T) {
	text := "name,lat,lon\nA,91,0\nB,1,x\n,1,1\nC,1,2\n" + strings.Repeat("Holt ", 50) + ",1,2\n"
	_, _, err := places.Decode(strings.NewReader(text), "p.csv")
	for _, want := range []string{"p.csv:2: A: lat 91 is outside -90 to 90 degrees", `p.csv:3: B: lon "x" is not a number`, "p.csv:4: the place has no name", "p.csv:6: the place has a name of 249 letters; want at most 200"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v lacks %q", err, want)
		}
	}
	for _, text := range []string{"", "town,x,y\nA,1,2\n", "name,lat,lon\n\"A,1,2\n"} {
		if _, _, err := places.Decode(strings.NewReader(text), "p.csv"); err == nil {
			t.Errorf("%q: no error", text)
		}
	}
}

func TestFind(t *testing.T) {
	all, _, _ := places.Decode(strings.NewReader(list), "places.csv")
	for _, c := range []struct {
		query, want string
		exact       bool
	}{
		{"m22", "Saint Aldwyn, Upper", true},
		{"SAINT ALDWYN UPPER", "Saint Aldwyn, Upper", true},
		{"saint", "Saint Aldwyn, Upper", false},
		{"elmreton", "Elmerton", false}, // neighbours swapped
		{"", "", false},
		{"zzzzzz", "", false},
	} {
		found, exact := places.Find(all, c.query)
		got := ""
		if len(found) > 0 {
			got = found[0].Name
		}
		if got != c.want || exact != c.exact {
			t.Errorf("Find(%q) = %q, %v; want %q, %v", c.query, got, exact, c.want, c.exact)
		}
	}
}

func FuzzDecode(f *testing.F) {
	f.Add(list)
	f.Fuzz(func(t *testing.T, text string) {
		all, _, err := places.Decode(strings.NewReader(text), "fuzz.csv")
		if err != nil {
			return
		}
		for _, p := range all {
			if p.Name == "" || p.At.Lat < -90 || p.At.Lat > 90 || p.At.Lon != p.At.Lon {
				t.Errorf("read %+v", p)
			}
		}
	})
}
