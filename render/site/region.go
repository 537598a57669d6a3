package site

import (
	"fmt"
	"net/url"
	"slices"
	"strings"

	"weekband/grid"
	"weekband/grid/season"
	"weekband/regions/report"
	"weekband/render/chart"
)

// Region is what every page knows of a region.
type Region struct {
	ID, Name string
	Slug     string        // its name in files
	At       grid.LonLat   // a point inside
	Box      grid.Box      // around it
	Rows     []*report.Row // one a window, in their order
}

// RegionFile is the file of the page of a region with a name in files.
func RegionFile(slug string) string { return "regions/" + slug + ".html" }

// Page is the file of the region's page.
func (r *Region) Page() string { return RegionFile(r.Slug) }

// Dated reports whether any window has weeks on at least half of the region's
// ground: whether it has a calendar.
func (r *Region) Dated() bool { return slices.ContainsFunc(r.Rows, (*report.Row).MostlyDated) }

// CardPage is the file of the small page that others show in a frame.
func (r *Region) CardPage() string { return "cards/" + r.Slug + ".html" }

// RegionPage is what stands on the page of a region alone.
type RegionPage struct {
	*Region
	Seasons    []Season
	Locator    Locator
	Neighbours []Neighbour // longest border first
	Places     []Place     // in it, the largest first
	Calendar   string      // file, "" for none
	Card       Picture     // for sharing the page, File "" for none
}

// Place is a named position.
type Place struct {
	Name string
	At   grid.LonLat
}

// Fragment is what a link to the index ends with to be answered for a position
// under a name.
func Fragment(at grid.LonLat, name string) string {
	return fmt.Sprintf("#at=%.4f,%.4f,%s", at.Lat, at.Lon, url.PathEscape(name))
}

// Season is one window in a region.
type Season struct {
	Window  *Window
	Row     *report.Row
	Years   *Years // nil when not known
	Handout string // file, "" for none
	Charts  []chart.Chart
}

// Years are the crossing days of an early and a late year, one of ten each.
type Years struct{ Early, Late season.Day }

// Neighbour is another region.
type Neighbour struct {
	*Region
	Apart bool // near, without a shared border
}

// charts reports whether the page has any chart.
func (r *RegionPage) charts() bool {
	for i := range r.Seasons {
		if len(r.Seasons[i].Charts) > 0 {
			return true
		}
	}
	return false
}

// describe tells in a sentence when it is on time in the region, for those who
// find its page, and what to heed.
func (r *RegionPage) describe(e *Edition) string {
	l := e.Language
	var parts []string
	for _, s := range r.Seasons {
		title, c, share := s.Window.Window.Title, s.Row.Calendar, l.Percent(s.Row.Shares.DatedShare)
		switch {
		case !s.Row.Dated:
		case !s.Row.MostlyDated():
			parts = append(parts, title+", "+l.Sentences.Window.Part(share))
		case !s.Row.DatedThroughout():
			parts = append(parts, fmt.Sprintf("%s, on time %s on %s of the ground", title, l.Span(c.OntimeFrom, c.OntimeTo), share))
		default:
			parts = append(parts, title+", on time "+l.Span(c.OntimeFrom, c.OntimeTo))
		}
	}
	if len(parts) == 0 {
		parts = []string{"no week of the year stands out here"}
	}
	return r.Name + ": " + strings.Join(parts, "; ") + ". " + e.Heed
}
