package site

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"
)

// FeedFile is the name of the feed within an edition.
const FeedFile = "feed.xml"

// Feed is the list of editions, as Feed.XML writes it.
type Feed struct {
	Title    string
	Language string // BCP 47
	Address  string // of the pages
	Editions []FeedEdition
}

// FeedEdition is one edition in a feed.
type FeedEdition struct {
	Year      int
	Published time.Time
	Title     string // of the entry
	Text      string // what it holds, sentences
	Address   string // where it is to be had, "" for nowhere
}

// XML returns the feed in the Atom format (RFC 4287), newest edition first,
// and false without an address or an edition. Identifiers are the address
// with the edition's year as fragment: they stay the same as long as the
// address does, whatever else of an edition is changed. Its author is the host
// of the address, since a recipe names nobody.
func (f Feed) XML() ([]byte, bool) {
	base := Under(f.Address, "")
	if base == "" || len(f.Editions) == 0 {
		return nil, false
	}
	list := slices.Clone(f.Editions)
	slices.SortStableFunc(list, func(a, b FeedEdition) int {
		return cmp.Or(b.Published.Compare(a.Published), cmp.Compare(b.Year, a.Year))
	})
	u, err := url.Parse(base)
	if err != nil {
		return nil, false
	}
	out := atomFeed{
		Language: f.Language, Title: xmlText(f.Title), ID: base, Updated: stamp(list[0].Published), Author: u.Hostname(),
		Links: []atomLink{
			{Rel: "self", Type: "application/atom+xml", Href: Under(f.Address, FeedFile)},
			{Rel: "alternate", Type: "text/html", Href: base},
		},
	}
	for _, e := range list {
		out.Entries = append(out.Entries, e.entry(base))
	}
	return xmlFile(out), true
}

func (e FeedEdition) entry(base string) atomEntry {
	out := atomEntry{
		ID: base + "#edition-" + strconv.Itoa(e.Year), Title: xmlText(e.Title),
		Published: stamp(e.Published), Updated: stamp(e.Published),
		Content: atomContent{Type: "text", Text: xmlText(e.Text)},
	}
	if href := Under(e.Address, ""); href != "" {
		out.Links = []atomLink{{Rel: "alternate", Type: "text/html", Href: href}}
	}
	return out
}

// The elements of RFC 4287, sections 4.1 and 4.2, in an order of our own; the
// format prescribes none.
type atomFeed struct {
	XMLName  xml.Name    `xml:"http://www.w3.org/2005/Atom feed"`
	Language string      `xml:"xml:lang,attr,omitempty"`
	ID       string      `xml:"id"`
	Title    string      `xml:"title"`
	Updated  string      `xml:"updated"`
	Author   string      `xml:"author>name"`
	Links    []atomLink  `xml:"link"`
	Entries  []atomEntry `xml:"entry"`
}

type atomLink struct {
	Rel  string `xml:"rel,attr"`
	Type string `xml:"type,attr"`
	Href string `xml:"href,attr"`
}

type atomEntry struct {
	ID        string      `xml:"id"`
	Title     string      `xml:"title"`
	Published string      `xml:"published"`
	Updated   string      `xml:"updated"`
	Links     []atomLink  `xml:"link"`
	Content   atomContent `xml:"content"`
}

type atomContent struct {
	Type string `xml:"type,attr"`
	Text string `xml:",chardata"`
}

// stamp writes 0:00 UTC of a day as RFC 3339 has it.
func stamp(d time.Time) string { return d.Format(time.DateOnly) + "T00:00:00Z" }

// xmlText returns a text on one line without the characters that XML cannot
// hold.
func xmlText(text string) string {
	text = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || r == '\uFFFE' || r == '\uFFFF' {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "\uFFFD"))
	return strings.Join(strings.Fields(text), " ")
}

// xmlFile writes a value of ours as a file. It panics on one that cannot be
// written, which no value of ours is.
func xmlFile(v any) []byte {
	var b bytes.Buffer
	b.WriteString(xml.Header)
	enc := xml.NewEncoder(&b)
	enc.Indent("", "  ")
	if err := enc.Encode(v); err != nil {
		panic(fmt.Sprintf("site: %v", err))
	}
	b.WriteByte('\n')
	return b.Bytes()
}
