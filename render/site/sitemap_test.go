package site_test

import (
	"encoding/xml"
	"fmt"
	"strings"
	"testing"
	"time"

	"weekband/render/site"
)

// pages is a sitemap of n pages of regions and the first one.
func pages(n int) site.Sitemap {
	s := site.Sitemap{Address: "https://soil.example/a&b/", Pages: []string{""}, Modified: date(2026, time.December, 1)}
	for i := range n {
		s.Pages = append(s.Pages, fmt.Sprintf("regions/r%d.html", i))
	}
	return s
}

type entries struct {
	XMLName xml.Name
	Loc     []string `xml:"url>loc"`
	Parts   []string `xml:"sitemap>loc"`
	Lastmod []string `xml:"url>lastmod"`
}

func read(t *testing.T, d site.Document) entries {
	t.Helper()
	var e entries
	if err := xml.Unmarshal(d.Data, &e); err != nil {
		t.Fatalf("%s: %v", d.Name, err)
	}
	valid(t, "--schema", "sitemap.xsd", d.Data)
	return e
}

func TestSitemap(t *testing.T) {
	list := pages(2).Documents()
	if len(list) != 1 || list[0].Name != "sitemap.xml" {
		t.Fatalf("documents %v", list)
	}
	e := read(t, list[0])
	if e.XMLName.Local != "urlset" || strings.Join(e.Loc, " ") != "https://soil.example/a&b/ https://soil.example/a&b/regions/r0.html https://soil.example/a&b/regions/r1.html" {
		t.Errorf("read %+v", e)
	}
	if len(e.Lastmod) != 3 || e.Lastmod[0] != "2026-12-01" {
		t.Errorf("changed on %q", e.Lastmod)
	}
	s := pages(0)
	s.Modified = time.Time{}
	if e := read(t, s.Documents()[0]); len(e.Lastmod) != 0 {
		t.Errorf("changed on %q without a day", e.Lastmod)
	}
}

// The protocol allows 50,000 entries a file; one more makes an index of two.
func TestManyPagesMakeAnIndex(t *testing.T) {
	if n := len(pages(49999).Documents()); n != 1 {
		t.Errorf("50,000 pages are in %d documents, want 1", n)
	}
	list := pages(50000).Documents()
	if len(list) != 3 {
		t.Fatalf("%d documents, want an index of two sitemaps", len(list))
	}
	index := read(t, list[0])
	if list[0].Name != "sitemap.xml" || index.XMLName.Local != "sitemapindex" || strings.Join(index.Parts, " ") != "https://soil.example/a&b/sitemap-1.xml https://soil.example/a&b/sitemap-2.xml" {
		t.Errorf("index %s: %+v", list[0].Name, index)
	}
	first, second := read(t, list[1]), read(t, list[2])
	if len(first.Loc) != 50000 || len(second.Loc) != 1 || second.Loc[0] != "https://soil.example/a&b/regions/r49999.html" || list[2].Name != "sitemap-2.xml" {
		t.Errorf("%d and %d entries", len(first.Loc), len(second.Loc))
	}
	for _, d := range list { // 50 MB at most
		if len(d.Data) > 50<<20 {
			t.Errorf("%s has %d bytes", d.Name, len(d.Data))
		}
	}
}

func TestNoSitemapWithoutAddress(t *testing.T) {
	s := pages(3)
	s.Address = ""
	if list := s.Documents(); list != nil {
		t.Errorf("documents %v", list)
	}
	s = pages(0)
	s.Pages = append(s.Pages, strings.Repeat("x", 2100))
	if e := read(t, s.Documents()[0]); len(e.Loc) != 1 {
		t.Errorf("%d addresses, want the long one left out", len(e.Loc))
	}
}
