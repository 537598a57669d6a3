package site

import (
	"encoding/xml"
	"fmt"
	"time"
)

// SitemapFile is the name of the sitemap, or of the index of sitemaps.
const SitemapFile = "sitemap.xml"

// Limits of the sitemap protocol 0.9, as published at sitemaps.org: entries of
// one file, and letters of an address.
const (
	mostPages      = 50000
	longestAddress = 2047
)

// Sitemap is the list of pages for those who index the site.
type Sitemap struct {
	Address  string // of the pages
	Pages    []string
	Modified time.Time // of all pages, zero when not known
}

// Document is a file of the site and what it holds.
type Document struct {
	Name string
	Data []byte
}

// Documents returns the sitemap, for more than 50,000 pages an index and the
// sitemaps that it names; none without an address or a page. Pages are paths
// in the edition, "" the first page. A page whose address is longer than the
// protocol allows is left out.
func (s Sitemap) Documents() []Document { return s.split(mostPages) }

// split returns the sitemap in files of most pages.
func (s Sitemap) split(most int) []Document {
	var modified string
	if !s.Modified.IsZero() {
		modified = s.Modified.Format(time.DateOnly)
	}
	var entries []sitemapEntry
	for _, page := range s.Pages {
		if at := Under(s.Address, page); at != "" && len(at) <= longestAddress {
			entries = append(entries, sitemapEntry{at, modified})
		}
	}
	if len(entries) == 0 {
		return nil
	}
	if len(entries) <= most {
		return []Document{{SitemapFile, xmlFile(sitemapPages{Entries: entries})}}
	}
	var index sitemapIndex
	parts := []Document{{Name: SitemapFile}}
	for first := 0; first < len(entries); first += most {
		name := fmt.Sprintf("sitemap-%d.xml", len(parts))
		parts = append(parts, Document{name, xmlFile(sitemapPages{Entries: entries[first:min(first+most, len(entries))]})})
		index.Entries = append(index.Entries, sitemapEntry{Under(s.Address, name), modified})
	}
	parts[0].Data = xmlFile(index)
	return parts
}

type sitemapPages struct {
	XMLName xml.Name       `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 urlset"`
	Entries []sitemapEntry `xml:"url"`
}

type sitemapIndex struct {
	XMLName xml.Name       `xml:"http://www.sitemaps.org/schemas/sitemap/0.9 sitemapindex"`
	Entries []sitemapEntry `xml:"sitemap"`
}

type sitemapEntry struct {
	Location string `xml:"loc"`
	Modified string `xml:"lastmod,omitempty"`
}
