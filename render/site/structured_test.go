package site_test

import (
	"encoding/json"
	"fmt"
	"html/template"
	"strings"
	"testing"
	"time"

	"weekband/grid"
	"weekband/render/site"
)

func facts() site.DatasetFacts {
	return site.DatasetFacts{
		Title: "Soil warm-up, Merrow </script><script>alert(1)</script>", Description: "Typical conditions, not a forecast.", Year: 2027, Period: "1991-2020",
		Published: date(2026, time.December, 1), Credits: "Invented & so", Language: "en", Address: "https://soil.example/",
		Box: grid.Box{West: -54.25, South: 38.123456, East: -50, North: 42}, Measured: []string{"day on which soil warms to 55 °F"},
		Files: []site.File{{Name: "tables/regions.csv", What: "regions as CSV"}, {Name: "data/regions.geojson", What: "outlines"}, {Name: "tables/cells.csv.gz", What: "cells"}},
	}
}

func decoded(t *testing.T, text template.JS) map[string]any {
	t.Helper()
	var m map[string]any
	if err := json.Unmarshal([]byte(text), &m); err != nil {
		t.Fatal(err)
	}
	return m
}

func ExampleDataset() {
	fmt.Println(site.Dataset(site.DatasetFacts{Title: "Vale", Description: "Typical weeks.", Year: 2027, Language: "en", Period: "1991-2020"}))
	// Output: {"@context":"https://schema.org","@type":"Dataset","description":"Typical weeks.","inLanguage":"en","name":"Vale","temporalCoverage":"1991/2020","version":"2027"}
}

// The words of schema.org (from memory): box is the south-western
// corner, then the north-eastern one, latitude first; temporalCoverage is an
// interval of ISO 8601.
func TestDataset(t *testing.T) {
	m := decoded(t, site.Dataset(facts()))
	geo := m["spatialCoverage"].(map[string]any)["geo"].(map[string]any)
	if geo["box"] != "38.1235 -54.25 42 -50" || m["temporalCoverage"] != "1991/2020" || m["datePublished"] != "2026-12-01" || m["url"] != "https://soil.example/" || m["creditText"] != "Invented & so" {
		t.Errorf("read %v", m)
	}
	files := m["distribution"].([]any)
	for i, want := range [][2]string{
		{"https://soil.example/tables/regions.csv", "text/csv"}, {"https://soil.example/data/regions.geojson", "application/geo+json"}, {"https://soil.example/tables/cells.csv.gz", "application/gzip"},
	} {
		if f := files[i].(map[string]any); f["contentUrl"] != want[0] || f["encodingFormat"] != want[1] || f["@type"] != "DataDownload" {
			t.Errorf("file %d: %v, want %v", i, f, want)
		}
	}
}

func TestDatasetLeavesOutWhatIsNotKnown(t *testing.T) {
	f := facts()
	f.Address, f.Period, f.Published, f.Credits = "", "thirty years", time.Time{}, ""
	m := decoded(t, site.Dataset(f))
	for _, key := range []string{"url", "temporalCoverage", "datePublished", "creditText"} {
		if v, there := m[key]; there {
			t.Errorf("%s is %v", key, v)
		}
	}
	if first := m["distribution"].([]any)[0].(map[string]any); first["contentUrl"] != "tables/regions.csv" {
		t.Errorf("without an address a file is %v", first)
	}
}

func TestWebPage(t *testing.T) {
	f := site.PageFacts{
		File: "regions/carrow.html", Title: "Carrow", Description: "Weeks of Carrow.", Language: "en", Address: "https://soil.example/merrow/",
		Edition: "Soil warm-up", Home: "../index.html", Region: "Carrow", Box: grid.Box{West: -1, South: -2, East: 0, North: 1}, Image: "images/carrow.png",
	}
	m := decoded(t, site.WebPage(f))
	list := m["breadcrumb"].(map[string]any)["itemListElement"].([]any)
	first, second := list[0].(map[string]any), list[1].(map[string]any)
	if m["url"] != "https://soil.example/merrow/regions/carrow.html" || first["item"] != "https://soil.example/merrow/" || first["position"] != 1.0 || second["position"] != 2.0 || second["name"] != "Carrow" {
		t.Errorf("read %v", m)
	}
	about := m["about"].(map[string]any)
	if about["name"] != "Carrow" || about["geo"].(map[string]any)["box"] != "-2 -1 1 0" {
		t.Errorf("about %v", about)
	}
	f.Address = ""
	m = decoded(t, site.WebPage(f))
	list = m["breadcrumb"].(map[string]any)["itemListElement"].([]any)
	if _, there := m["url"]; there || list[0].(map[string]any)["item"] != "../index.html" || m["primaryImageOfPage"].(map[string]any)["contentUrl"] != "../images/carrow.png" {
		t.Errorf("without an address: %v", m)
	}
}

// Names cannot end the script element that holds the description, and the
// template puts it in as it is.
func TestStructuredDataIsSafeInHTML(t *testing.T) {
	var b strings.Builder
	page := template.Must(template.New("x").Parse(`<script type="application/ld+json">{{.}}</script>`))
	text := site.Dataset(facts())
	if err := page.Execute(&b, text); err != nil {
		t.Fatal(err)
	}
	inside := strings.TrimSuffix(strings.TrimPrefix(b.String(), `<script type="application/ld+json">`), "</script>")
	if strings.ContainsAny(inside, "<>") || inside != string(text) {
		t.Errorf("in a page: %s", b.String())
	}
}
