package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/recipe"
)

// eventDays returns the begin and end of every event of a calendar by window
// and status.
func eventDays(text string) map[string][2]string {
	days := map[string][2]string{}
	for event := range strings.SplitSeq(strings.ReplaceAll(text, "\r\n ", ""), "BEGIN:VEVENT") {
		value := func(name string) string {
			_, rest, _ := strings.Cut(event, "\r\n"+name+":")
			v, _, _ := strings.Cut(rest, "\r\n")
			return v
		}
		if id := strings.Split(value("UID"), "."); len(id) > 2 {
			days[id[1]+" "+id[2]] = [2]string{value("DTSTART;VALUE=DATE"), value("DTEND;VALUE=DATE")}
		}
	}
	return days
}

// The demo's calendars have the days of its table, in the year of the edition
// or next to it, and a file for every region of which at least half has a week.
// Pages offer the files that are there.
func TestCalendarsAgreeWithTheTable(t *testing.T) {
	out := demoEdition(t)
	wanted, rows, little := map[string]bool{}, 0, 0
	for _, row := range regionTable(t, out) {
		name := calendarFile(slug(row["region"]))
		dated := 1.0
		for _, without := range []string{"never_share", "always_share", "nodata_share", "flat_share"} {
			dated -= number(t, row[without])
		}
		if dated < 0.495 {
			little++
			if text, err := os.ReadFile(filepath.Join(out, filepath.FromSlash(name))); err == nil && strings.Contains(string(text), "2027."+row["window"]+".") {
				t.Errorf("%s, %s: events for %.0f %% of the ground", row["region"], row["window"], 100*dated)
			}
			continue
		}
		wanted[filepath.Base(name)] = true
		text, err := os.ReadFile(filepath.Join(out, filepath.FromSlash(name)))
		if err != nil {
			t.Error(err)
			continue
		}
		rows++
		days := eventDays(string(text))
		for status, columns := range map[string][2]string{
			"ahead": {"ahead_from", "ontime_from"}, "ontime": {"ontime_from", "ontime_to"}, "catchup": {"ontime_to", "catchup_to"},
		} {
			got := days[row["window"]+" "+status]
			for i, column := range columns {
				if want := strings.ReplaceAll(row[column], "-", ""); len(got[i]) != 8 || got[i][4:] != want {
					t.Errorf("%s, %s, %s: %s is %s, in the table %s", row["region"], row["window"], status, column, got[i], row[column])
				}
			}
			if status == "ontime" && !strings.HasPrefix(got[1], "2027") {
				t.Errorf("%s, %s: the crossing is %s, not in the edition's year", row["region"], row["window"], got[1])
			}
		}
	}
	made, err := os.ReadDir(filepath.Join(out, "calendars"))
	if err != nil || len(made) != len(wanted) || len(wanted) == 18 || rows < 20 || little < 3 {
		t.Errorf("%d calendars of %d regions with weeks, %d rows with and %d without, %v", len(made), len(wanted), rows, little, err)
	}
	for _, row := range regionTable(t, out) {
		file := calendarFile(slug(row["region"]))
		page, err := os.ReadFile(filepath.Join(out, "regions", slug(row["region"])+".html"))
		if offered := strings.Contains(string(page), "../"+file); err != nil || offered != wanted[filepath.Base(file)] {
			t.Errorf("%s: the page offers a calendar: %v, and there is one: %v (%v)", row["region"], offered, !offered, err)
		}
	}
}

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

func TestDomain(t *testing.T) {
	for lines, want := range map[string]string{
		"": "soil-weeks-vale.weekband.invalid", "address: https://Soil.example\n": "soil.example", "address: https://soil.example:8443/vale/index.html\n": "soil.example/vale",
	} {
		if r, _ := published(t, lines); domain(r) != want {
			t.Errorf("%q: %s, want %s", lines, domain(r), want)
		}
	}
	r, _ := published(t, "")
	r.Title = "谷の国"
	if got := domain(r); got != "weekband.invalid" {
		t.Errorf("a title without Latin letters: %s", got)
	}
}
