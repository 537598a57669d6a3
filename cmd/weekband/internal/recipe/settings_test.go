package recipe

import (
	"maps"
	"regexp"
	"slices"
	"testing"
)

// full has every key that may stand with the others.
const full = `
title: Spring soil warm-up
edition: 2027
credits: Invented
terrain: elevation.tif
places: places.csv
published: 2026-12-01
earlier: [{edition: 2026, published: 2025-12-03, address: https://soil.example/2026/}]
normals: {files: [a.tif, b.tif], sd: sd.tif, variable: t, measures: air, unit: 0.1C, period: 1991-2020}
grid: {cell: 800 m, box: [-54.4, 31.2, -41.6, 40.8]}
soil: {depth: 2 in, calibration: offsets.csv}
windows:
- {id: spring, title: Spring, threshold: 55 F, starts: 50 F, direction: warming, residual: 45 d, q10: 2.5, reference: 70 F,
   second: {below: 40 %, until: 80 %}, seeding: {date: 09-01, method: slit, interval: 90 d, young: 50 d}, ahead: 14 d, floor: 20 %}
regions: [{file: counties.json, object: counties, id: code, name: name, within: state}]
maps: [worth, early]
worth_of: [03-25]
relief: off
insets: [{title: Far Isles, box: [1, 2, 3, 4]}]
size: 1600
palette: millpond
logo: logo.png
paper: a4
address: https://soil.example/
handouts: all
language: en
dates: day-first
`

var place = regexp.MustCompile(`\[[^\]]+\]`)

// Every key that a recipe may have is among its settings, whatever it is
// called in the recipe's lists, and every value differs from that of a recipe
// that says as little as it may.
func TestSettingsHaveEveryKey(t *testing.T) {
	doc := &document{name: "x", keys: map[string]bool{}}
	r, err := decode([]byte(full), doc)
	if err != nil {
		t.Fatal(err)
	}
	got := map[string]bool{}
	for key, text := range r.Settings() {
		got[place.ReplaceAllString(key, "[]")] = true
		if text == "" {
			t.Errorf("%s is empty", key)
		}
	}
	notAlone := []string{ // sections; what stands instead of files; what the interval comes to
		"normals", "grid", "soil", "windows", "regions", "earlier", "insets", "windows[].second", "windows[].seeding",
		"normals.sites", "normals.values", "windows[].seeding.method",
	}
	for key := range doc.keys {
		if !got[key] && !slices.Contains(notAlone, key) {
			t.Errorf("no setting has the key %s; there are %q", key, slices.Sorted(maps.Keys(got)))
		}
	}
	least, err := Decode([]byte("title: x\nedition: 2026\nnormals: {files: x}\nwindows: [{id: spring, title: x, threshold: 60 F}]"), "least.yaml")
	if err != nil {
		t.Fatal(err)
	}
	same := []string{"windows[spring].id", "windows[spring].direction", "normals.measures", "language"} // have no other value here
	plain := least.Settings()
	for key, text := range r.Settings() {
		if plain[key] == text && !slices.Contains(same, key) {
			t.Errorf("%s is %q in both", key, text)
		}
	}
}

// Settings spelled in other ways are the same settings.
func TestSettingsDoNotKnowSpelling(t *testing.T) {
	const head = "title: x\nedition: 2027\nnormals: {files: x}\n"
	a, err := Decode([]byte(head+"soil: {depth: 10 cm}\ngrid: {cell: 4 km}\nwindows: [{id: spring, title: x, threshold: 55 °F, residual: medium}]"), "a.yaml")
	if err != nil {
		t.Fatal(err)
	}
	b, err := Decode([]byte(head+"grid: {cell: 4000 m}\nwindows:\n- {threshold: 55F, title: x, id: spring, starts: 10 C, ahead: 21 d, residual: 60 d, floor: 25%}"), "b.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if !maps.Equal(a.Settings(), b.Settings()) {
		t.Errorf("%v and %v", a.Settings(), b.Settings())
	}
}
