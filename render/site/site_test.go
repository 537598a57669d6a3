package site_test

import (
	"fmt"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"

	"weekband/grid"
	"weekband/grid/status"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/site"
)

var window = status.Window{ID: "spring", Title: "Spring <weeds> & \"more\""}

func rows() []report.Row {
	return []report.Row{
		{Window: &window, ID: "W", Name: "Wendrow", Dated: true, Calendar: status.Calendar{AheadFrom: -10, OntimeFrom: 11, OntimeTo: 40, CatchupTo: 80}, Shares: zonal.Summary{DatedShare: 1}},
		{Window: &window, ID: "E", Name: "Éstrey", Shares: zonal.Summary{AlwaysShare: 1}},
	}
}

func edition() site.Edition {
	e := site.Edition{
		Title: `Vale <script>alert("x")</script>`, Year: 2027, Heed: "Check your soil.", Cautions: []string{"The label is the law."},
		Sure: "Within a week or so.", Measures: "soil at 4 in",
		Windows: []site.Window{{
			Window: &window, Lead: "Typical week.", Map: site.Picture{File: "maps/spring.png", Alt: "A map", Width: 10, Height: 10},
			Wide:    site.Picture{File: "maps/spring-page.png", Alt: "A map", Width: 10, Height: 10},
			Handout: "maps/spring-handout.pdf", Rows: rows(), Bands: []site.Band{{Label: "Mar 12–18", Km2: 12345.6, Share: 0.004}},
		}},
	}
	for i := range e.Windows[0].Rows {
		r := &e.Windows[0].Rows[i]
		e.Regions = append(e.Regions, site.Region{ID: r.ID, Name: r.Name, Slug: strings.ToLower(r.ID), At: grid.LonLat{Lon: -45, Lat: 38}, Rows: []*report.Row{r}})
	}
	return e
}

// folder is an edition's folder in which pages were written.
type folder struct {
	*os.Root
	t testing.TB
}

func (f folder) page(name string) string {
	f.t.Helper()
	text, err := f.ReadFile(name)
	if err != nil {
		f.t.Fatal(err)
	}
	return string(text)
}

func written(t testing.TB, e site.Edition) folder {
	t.Helper()
	root, err := os.OpenRoot(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { root.Close() })
	w, err := site.NewWriter(root, e)
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Write(); err != nil {
		t.Fatal(err)
	}
	for i := range e.Regions {
		r := &e.Regions[i]
		page := site.RegionPage{Region: r, Seasons: []site.Season{{Window: &e.Windows[0], Row: r.Rows[0]}}}
		if err := w.Region(&page); err != nil {
			t.Fatal(err)
		}
	}
	return folder{root, t}
}

var everyPage = []string{"index.html", "lookup.html", "embed.html", "windows/spring.html", "regions/index.html", "regions/w.html", "regions/e.html", "cards/w.html", "cards/e.html"}

// described is what a page tells machines, in whose words addresses stand.
var described = regexp.MustCompile(`<script type="application/ld\+json">.*</script>`)

// Titles are text on every page, none needs a script or style within it, and
// none names another site.
func TestEveryPageIsPlain(t *testing.T) {
	out := written(t, edition())
	for _, name := range everyPage {
		page := described.ReplaceAllString(out.page(name), "")
		if strings.Contains(page, "<script>") || strings.Contains(page, "<weeds>") || strings.Contains(page, "alert(\"x\")") {
			t.Errorf("%s: a title became markup", name)
		}
		for _, outside := range []string{"http://", "https://", "//cdn", "style=", "onclick", "javascript:"} {
			if strings.Contains(page, outside) {
				t.Errorf("%s holds %q", name, outside)
			}
		}
		if !strings.Contains(page, `lang="en"`) || !strings.Contains(page, "Check your soil.") {
			t.Errorf("%s lacks its language or its caution", name)
		}
	}
}

// Every link of a page leads to a file that is there or that the edition's
// other parts write.
func TestLinksLeadSomewhere(t *testing.T) {
	out := written(t, edition())
	for _, name := range everyPage {
		for _, part := range strings.Split(out.page(name), `href="`)[1:] {
			link, _, _ := strings.Cut(part, `"`)
			link, fragment, _ := strings.Cut(link, "#")
			link, _, _ = strings.Cut(link, "?")
			to := path.Join(path.Dir(name), link)
			if link == "" {
				if !strings.Contains(out.page(name), `id="`+fragment+`"`) {
					t.Errorf("%s: nothing has the id %q", name, fragment)
				}
				continue
			}
			if strings.HasPrefix(to, "maps/") || strings.HasPrefix(to, "tables/") {
				continue
			}
			if _, err := out.Stat(to); err != nil {
				t.Errorf("%s links to %s: %v", name, link, err)
			}
		}
	}
}

func TestPagesTellEverything(t *testing.T) {
	out := written(t, edition())
	for name, wants := range map[string][]string{
		"index.html":          {"The label is the law.", "Within a week or so.", ">Jan 11–Feb 8<", "always above the threshold", `alt="A map"`},
		"windows/spring.html": {"under 1\u00a0%", "12\u2009346", ">Dec 21–Jan 10<", ">Feb 9–Mar 20<", "always above the threshold"},
		"regions/w.html":      {">Jan 11–Feb 8<", ">Dec 21–Jan 10<", "The label is the law."},
		"regions/e.html":      {"always above the threshold"},
		"cards/w.html":        {">Jan 11–Feb 8<"},
	} {
		page := out.page(name)
		for _, want := range wants {
			if !strings.Contains(page, want) {
				t.Errorf("%s lacks %q", name, want)
			}
		}
	}
	if list := out.page("regions/index.html"); strings.Index(list, "Éstrey") > strings.Index(list, "Wendrow") {
		t.Error("regions are not in the order of their names")
	}
}

// A stretch over New Year stands in two pieces in the strip.
func TestStripWrapsOverNewYear(t *testing.T) {
	page := written(t, edition()).page("windows/spring.html")
	if got := strings.Count(page, `<rect class="ahead"`); got != 2 {
		t.Errorf("ahead of time from 22 December to 11 January stands in %d pieces, want 2", got)
	}
	if got := strings.Count(page, `<rect class="ontime"`); got != 1 {
		t.Errorf("on time stands in %d pieces, want 1", got)
	}
}

func TestWithoutRegionsThereIsNoList(t *testing.T) {
	e := edition()
	e.Windows[0].Rows, e.Regions = nil, nil
	out := written(t, e)
	for _, name := range []string{"index.html", "windows/spring.html", "embed.html"} {
		if page := out.page(name); strings.Contains(page, "regions/") || strings.Contains(page, "every region") {
			t.Errorf("%s promises regions and has none", name)
		}
	}
	if _, err := out.Stat("regions/index.html"); err == nil {
		t.Error("a list of no regions was written")
	}
}

// Stills come first; the animation waits folded, unloaded, and has a still for
// readers who ask for less motion.
func TestAnimationWaitsToBeAsked(t *testing.T) {
	e := edition()
	w := &e.Windows[0]
	w.Sheet, w.NarrowSheet = site.Picture{File: "maps/spring-sheet.png", Alt: "Small maps"}, site.Picture{File: "maps/spring-sheet-narrow.png"}
	w.Weeks = []site.Frame{{Week: 11, Picture: site.Picture{File: "weeks/spring/11.png", Alt: "One week"}}}
	if page := written(t, e).page("windows/spring.html"); !strings.Contains(page, `alt="Small maps"`) || strings.Contains(page, "Play the weeks") {
		t.Error("an edition without animation offers one, or lacks the sheet")
	}
	w.Animation = &site.Animation{Picture: site.Picture{File: "weeks/spring.gif", Alt: "All weeks"}, Still: w.Weeks[0]}
	page := written(t, e).page("windows/spring.html")
	const film = `<source media="(prefers-reduced-motion: reduce)" srcset="../weeks/spring/11.png"><img loading="lazy" src="../weeks/spring.gif"`
	sheet, folded, at := strings.Index(page, "spring-sheet.png"), strings.Index(page, "Play the weeks"), strings.Index(page, film)
	if sheet < 0 || folded < sheet || at < folded || strings.Index(page[folded:], "</details>") < at-folded || !strings.Contains(page, `alt="All weeks"`) {
		t.Errorf("sheet at %d, fold at %d, animation at %d, in this order wanted", sheet, folded, at)
	}
}

// With an address pages say where they are published, and pieces to copy are
// complete.
func TestAddress(t *testing.T) {
	e := edition()
	e.Address, e.Card = "https://vale.example/weeks/", site.Picture{File: "cards/edition.png", Alt: "Vale", Width: 1200, Height: 630}
	out := written(t, e)
	for name, want := range map[string]string{
		"index.html":          `<link rel="canonical" href="https://vale.example/weeks/">`,
		"windows/spring.html": `<meta property="og:image" content="https://vale.example/weeks/cards/edition.png">`,
		"regions/w.html":      `<link rel="canonical" href="https://vale.example/weeks/regions/w.html">`,
		"embed.html":          "https://vale.example/weeks/lookup.html",
	} {
		if page := out.page(name); !strings.Contains(page, want) {
			t.Errorf("%s lacks %q", name, want)
		}
	}
}

func ExampleWriter() {
	dir, err := os.MkdirTemp("", "site-")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	root, err := os.OpenRoot(dir)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer root.Close()
	w, err := site.NewWriter(root, edition())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(w.Write())
	// Output: <nil>
}
