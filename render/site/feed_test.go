package site_test

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"weekband/grid/oracle"
	"weekband/render/site"
)

func date(year int, m time.Month, day int) time.Time {
	return time.Date(year, m, day, 0, 0, 0, 0, time.UTC)
}

func feed() site.Feed {
	return site.Feed{
		Title: `Soil <warm-up> & "more"`, Language: "en", Address: "https://soil.example/merrow",
		Editions: []site.FeedEdition{
			{Year: 2026, Published: date(2025, time.December, 3), Title: "Edition 2026", Text: "Typical weeks.", Address: "https://soil.example/2026/"},
			{Year: 2027, Published: date(2026, time.December, 1), Title: "Edition 2027 \x01", Text: "Typical\nweeks \xff", Address: "https://soil.example/merrow/index.html"},
			{Year: 2025, Published: date(2024, time.December, 5), Title: "Edition 2025", Text: "Typical weeks."},
		},
	}
}

func feedText(t testing.TB, f site.Feed) []byte {
	t.Helper()
	text, ok := f.XML()
	if !ok {
		t.Fatal("no feed")
	}
	return text
}

// valid checks a document against a schema in testdata with xmllint, whose
// flag names the kind of schema.
func valid(t *testing.T, flag, schema string, text []byte) {
	t.Helper()
	oracle.Need(t, "xmllint")
	name := filepath.Join(t.TempDir(), "document.xml")
	if err := os.WriteFile(name, text, 0o644); err != nil {
		t.Fatal(err)
	}
	oracle.Run(t, nil, "xmllint", "--nonet", "--noout", flag, filepath.Join("testdata", schema), name)
}

func ExampleFeed_XML() {
	f := feed()
	f.Editions = f.Editions[:1]
	text, _ := f.XML()
	for line := range strings.SplitSeq(string(text), "\n") {
		if strings.Contains(line, "id>") {
			fmt.Println(strings.TrimSpace(line))
		}
	}
	// Output:
	// <id>https://soil.example/merrow/</id>
	// <id>https://soil.example/merrow/#edition-2026</id>
}

func TestFeedKeepsToAtom(t *testing.T) { valid(t, "--relaxng", "atom.rng", feedText(t, feed())) }

// The check itself can fail: without what RFC 4287, 4.1 requires it does.
func TestAtomSchemaRefuses(t *testing.T) {
	oracle.Need(t, "xmllint")
	whole := string(feedText(t, feed()))
	for _, part := range []string{"<updated>2026-12-01T00:00:00Z</updated>", "<id>https://soil.example/merrow/</id>"} {
		name := filepath.Join(t.TempDir(), "document.xml")
		if err := os.WriteFile(name, []byte(strings.Replace(whole, part, "", 1)), 0o644); err != nil {
			t.Fatal(err)
		}
		const script = `! xmllint --nonet --noout --relaxng testdata/atom.rng "$0" 2>/dev/null`
		oracle.Run(t, nil, "sh", "-c", script, name)
	}
}

// atom is a feed as a reader of feeds takes it.
type atom struct {
	Title   string `xml:"http://www.w3.org/2005/Atom title"`
	ID      string `xml:"http://www.w3.org/2005/Atom id"`
	Updated string `xml:"http://www.w3.org/2005/Atom updated"`
	Links   []struct {
		Rel  string `xml:"rel,attr"`
		Href string `xml:"href,attr"`
	} `xml:"http://www.w3.org/2005/Atom link"`
	Entries []struct {
		Title   string `xml:"http://www.w3.org/2005/Atom title"`
		ID      string `xml:"http://www.w3.org/2005/Atom id"`
		Updated string `xml:"http://www.w3.org/2005/Atom updated"`
		Content string `xml:"http://www.w3.org/2005/Atom content"`
		Link    *struct {
			Href string `xml:"href,attr"`
		} `xml:"http://www.w3.org/2005/Atom link"`
	} `xml:"http://www.w3.org/2005/Atom entry"`
}

func TestFeedTells(t *testing.T) {
	var a atom
	if err := xml.Unmarshal(feedText(t, feed()), &a); err != nil {
		t.Fatal(err)
	}
	if a.Title != `Soil <warm-up> & "more"` || a.ID != "https://soil.example/merrow/" || a.Updated != "2026-12-01T00:00:00Z" || a.Links[0].Href != "https://soil.example/merrow/feed.xml" {
		t.Errorf("feed %+v", a)
	}
	if len(a.Entries) != 3 {
		t.Fatalf("%d entries, want 3", len(a.Entries))
	}
	newest, middle, oldest := a.Entries[0], a.Entries[1], a.Entries[2]
	if newest.Title != "Edition 2027" || newest.Content != "Typical weeks \uFFFD" || newest.Link.Href != "https://soil.example/merrow/" || newest.ID != "https://soil.example/merrow/#edition-2027" {
		t.Errorf("newest entry %+v", newest)
	}
	if middle.Updated != "2025-12-03T00:00:00Z" || middle.Link.Href != "https://soil.example/2026/" {
		t.Errorf("middle entry %+v", middle)
	}
	if oldest.ID != "https://soil.example/merrow/#edition-2025" || oldest.Link != nil {
		t.Errorf("oldest entry %+v", oldest)
	}
}

// An entry has the same identifier in every year's feed.
func TestEntriesKeepTheirIdentifiers(t *testing.T) {
	now := feed()
	before := site.Feed{Title: "Another title", Language: "en", Address: "https://soil.example/merrow/", Editions: []site.FeedEdition{
		{Year: 2026, Published: date(2025, time.December, 2), Title: "New!", Text: "x", Address: "https://soil.example/merrow/"},
	}}
	const id = "<id>https://soil.example/merrow/#edition-2026</id>"
	if !bytes.Contains(feedText(t, now), []byte(id)) || !bytes.Contains(feedText(t, before), []byte(id)) {
		t.Errorf("not both feeds have %s", id)
	}
}

func TestNoFeedWithoutAddress(t *testing.T) {
	for _, f := range []site.Feed{{}, {Title: "x", Editions: feed().Editions}, {Title: "x", Address: "https://soil.example/"}} {
		if text, ok := f.XML(); ok {
			t.Errorf("%+v gave %s", f, text)
		}
	}
}

func TestUnder(t *testing.T) {
	for _, c := range [][3]string{
		{"https://soil.example", "feed.xml", "https://soil.example/feed.xml"},
		{"https://soil.example/", "", "https://soil.example/"},
		{"https://Soil.example/merrow", "regions/carrow.html", "https://soil.example/merrow/regions/carrow.html"},
		{"http://soil.example:8080/a/b/index.html?x=1#top", "", "http://soil.example:8080/a/b/"},
		{"https://soil.example/höhen weg/", "a&b.html", "https://soil.example/h%C3%B6hen%20weg/a&b.html"},
		{"", "x", ""}, {"soil.example", "x", ""}, {"https://%zz/", "x", ""},
	} {
		if got := site.Under(c[0], c[1]); got != c[2] {
			t.Errorf("%q under %q is %q, want %q", c[1], c[0], got, c[2])
		}
	}
}
