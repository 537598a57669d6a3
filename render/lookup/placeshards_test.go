package lookup_test

import (
	"cmp"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/oracle"
	"weekband/regions/places"
	"weekband/render/lookup"
)

func TestPlaceFileNamesAreSafeAndDiffer(t *testing.T) {
	for key, want := range map[string]string{
		"a": "places-a.js", "zip 1": "places-zip_1.js", "к": "places--43a-.js", "43a": "places-43a.js", "ж7": "places--436-7.js", "𐐨": "places--10428-.js",
	} {
		if got := lookup.PlaceFile(key); got != "data/lookup/"+want {
			t.Errorf("%q: %s, want %s", key, got, want)
		}
	}
}

// Places with one long name in letters of another script make no name of a file
// that is too long, and come back.
func TestLongNamesOfPlaces(t *testing.T) {
	var list []places.Place
	for i := range 4001 {
		list = append(list, places.Place{Name: strings.Repeat("村", 60), Code: fmt.Sprint(i)})
	}
	d := data(field(t))
	d.Places = list
	e := write(t, t.TempDir(), d)
	for _, s := range e.Places {
		if name := lookup.PlaceFile(s.Key); len(name) > 255 { // bytes, the most that common file systems take
			t.Errorf("%d bytes: %s", len(name), name)
		}
	}
	if got, err := e.PlaceList(); err != nil || len(got) != len(list) {
		t.Errorf("%d places come back, want %d (%v)", len(got), len(list), err)
	}
}

// All places come back, of a list too large for one shard a letter.
func TestPlacesComeBack(t *testing.T) {
	var list []places.Place
	for i := range 9000 {
		list = append(list, places.Place{Name: fmt.Sprintf("Zone %04d", i), Code: fmt.Sprintf("%05d", i*11), At: grid.LonLat{Lon: float64(i%3600) / 10, Lat: 45.0004}})
	}
	list = append(list, places.Place{Name: "Zone", Region: "R"}, places.Place{Name: "Край", Rank: 2}, places.Place{Name: "Z"})
	d := data(field(t))
	d.Places = list
	dir := t.TempDir()
	e := write(t, dir, d)
	got, err := e.PlaceList()
	if err != nil {
		t.Fatal(err)
	}
	slices.SortFunc(list, places.Compare)
	if !slices.Equal(got, list) || e.Known != len(list) {
		t.Errorf("%d places, the index says %d, want %d", len(got), e.Known, len(list))
	}
	most := slices.MaxFunc(e.Places, func(a, b lookup.PlaceShard) int { return cmp.Compare(a.Count, b.Count) })
	if most.Count > 4000 {
		t.Errorf("%q holds %d places", most.Key, most.Count)
	}
	text, err := os.ReadFile(dir + "/" + lookup.PlaceFile(most.Key))
	if err != nil || !strings.HasPrefix(string(text), `weekbandPlaces("`+most.Key+`",[[`) {
		t.Errorf("%.60s, %v", text, err)
	}
	if err := os.Remove(dir + "/" + lookup.PlaceFile(most.Key)); err != nil {
		t.Fatal(err)
	}
	if _, err := e.PlaceList(); err == nil || !strings.Contains(err.Error(), "build the edition again") {
		t.Errorf("without a shard: %v", err)
	}
}

// What is typed into the page finds places and regions through the shards, also
// when its first letters are swapped; a broken edition is told.
func TestPageFindsThroughShards(t *testing.T) {
	oracle.Need(t, "node")
	d, dir := data(field(t)), t.TempDir()
	write(t, dir, d)
	queries := []string{"lowen", "olwen", "upper", "region 1", "кра", "m3", "nothing of the kind"}
	want := []string{"Lowen!", "Lowen", "Saint Aldwyn, Upper", "Region 1!", "Край", "Élmere", ""}
	got := page(t, asked{Root: dir + "/", Queries: queries})
	if got.Problem != "" || len(got.Typed) != len(queries) {
		t.Fatalf("%d answers, %s", len(got.Typed), got.Problem)
	}
	for i, q := range queries {
		first := ""
		if len(got.Typed[i]) > 0 {
			first = got.Typed[i][0].Name
			if got.Typed[i][0].Exact {
				first += "!"
			}
		}
		if first != want[i] {
			t.Errorf("%q: %s, want %s", q, first, want[i])
		}
	}
	if err := os.WriteFile(dir+"/data/lookup/0-0.js", []byte("weekbandShard(\"0-1\",\"\");\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := page(t, asked{Root: dir + "/", Spots: []spot{{Lat: 39.4, Lon: -90.9}}}); !strings.Contains(got.Problem, "0-0.js is not what it should be") {
		t.Errorf("a shard of another block: %q", got.Problem)
	}
	if err := os.Remove(dir + "/data/lookup/0-0.js"); err != nil {
		t.Fatal(err)
	}
	if got := page(t, asked{Root: dir + "/", Spots: []spot{{Lat: 39.4, Lon: -90.9}}}); !strings.Contains(got.Problem, "0-0.js could not be read") {
		t.Errorf("no shard: %q", got.Problem)
	}
}
