package pages

import (
	"os"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
)

// published returns a recipe with further lines, and a folder.
func published(t *testing.T, lines string) (*recipe.Recipe, *os.Root) {
	t.Helper()
	r, err := recipe.Decode([]byte("title: Soil & weeks, Vale\nedition: 2027\nnormals: {files: x, period: 1991-2020}\nwindows: [{id: spring, title: Spring weeds, threshold: 55 F}]\n"+lines), "vale.yaml")
	if err != nil {
		t.Fatal(err)
	}
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	return r, root
}

func TestAnnounce(t *testing.T) {
	const address = "address: https://soil.example/vale\n"
	r, root := published(t, address+"published: 2026-12-01\nearlier: [{edition: 2026, published: 2025-12-03}]\n")
	if err := announce(root, r, []string{"", "regions/high-vennet.html"}); err != nil {
		t.Fatal(err)
	}
	feed, err := root.ReadFile("feed.xml")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"<title>Soil &amp; weeks, Vale, edition 2027</title>", "Edition 2027, normals of 1991-2020. Maps, tables and handouts of the typical weeks: Spring weeds. Typical conditions, not a forecast.",
		"<id>https://soil.example/vale/#edition-2026</id>", "<updated>2025-12-03T00:00:00Z</updated>",
	} {
		if !strings.Contains(string(feed), want) {
			t.Errorf("the feed lacks %q", want)
		}
	}
	sitemap, err := root.ReadFile("sitemap.xml")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(sitemap), "<loc>https://soil.example/vale/</loc>") || !strings.Contains(string(sitemap), "<loc>https://soil.example/vale/regions/high-vennet.html</loc>") {
		t.Errorf("the sitemap lacks a page:\n%s", sitemap)
	}
}

// Each file is written only where the recipe says what it needs.
func TestAnnounceWithoutAddressOrDay(t *testing.T) {
	for lines, want := range map[string]string{
		"": "", "published: 2026-12-01\n": "", "address: https://soil.example/\n": "sitemap.xml", "address: https://soil.example/\npublished: 2026-12-01\n": "feed.xml sitemap.xml",
	} {
		r, root := published(t, lines)
		if err := announce(root, r, []string{"", "regions/high-vennet.html"}); err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, name := range []string{"feed.xml", "sitemap.xml"} {
			if _, err := root.Stat(name); err == nil {
				got = append(got, name)
			}
		}
		if strings.Join(got, " ") != want {
			t.Errorf("%q: wrote %q, want %q", lines, got, want)
		}
	}
}
