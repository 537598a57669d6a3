package output

import (
	"io"
	"net/url"
	"os"
	"strings"

	"weekband/cmd/weekband/internal/phrase"
	"weekband/cmd/weekband/internal/publish"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/regions"
	"weekband/regions/report"
	"weekband/render/calendar"
	"weekband/render/site"
)

// CalendarFile names the calendar of a region by its slug.
func CalendarFile(slug string) string { return "calendars/" + slug + ".ics" }

// WriteCalendars writes a calendar for every region that has weeks.
func WriteCalendars(root *os.Root, r *recipe.Recipe, set regions.Set, rows []report.Row) error {
	e := calendar.Edition{
		Title: r.Title, Year: r.Edition, Published: r.Published, Measures: phrase.Measures(r),
		Address: r.Address, Domain: domain(r), Language: r.Language,
	}
	names, of, titles := Slugs(set), byRegion(rows), set.Titles()
	for i, region := range set.Regions {
		mine := of[region.ID]
		if !calendar.HasEvents(mine) {
			continue
		}
		c := calendar.Region{Slug: names[region.ID], Name: titles[i], Rows: mine}
		if r.Address != "" {
			c.Page = site.Under(r.Address, site.RegionFile(c.Slug))
		}
		if err := publish.Create(root, CalendarFile(c.Slug), func(w io.Writer) error { return e.Write(w, c) }); err != nil {
			return err
		}
	}
	return nil
}

// byRegion returns the rows of every region by its id, windows in their order.
func byRegion(rows []report.Row) map[string][]report.Row {
	of := map[string][]report.Row{}
	for _, row := range rows {
		of[row.ID] = append(of[row.ID], row)
	}
	return of
}

// domain returns what identifiers of calendars end in: the host and path of
// the address, else the title under a name that no host ever has (RFC 2606,
// section 2: .invalid).
func domain(r *recipe.Recipe) string {
	if u, err := url.Parse(site.Under(r.Address, "")); err == nil && u.Host != "" {
		return u.Hostname() + strings.TrimSuffix(u.EscapedPath(), "/")
	}
	return strings.TrimPrefix(Slug(r.Title)+".weekband.invalid", ".")
}
