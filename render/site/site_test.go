package site_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"weekband/grid/status"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/site"
)

var window = status.Window{ID: "spring", Title: "Spring <weeds> & \"more\""}

func edition() site.Edition {
	return site.Edition{
		Title: `Vale <script>alert("x")</script>`, Year: 2027, Heed: "Check your soil.", Cautions: []string{"The label is the law."},
		Sure: "Within a week or so.", Measures: "soil at 4 in",
		Windows: []site.Window{{
			Window: &window, Lead: "Typical week.", Map: site.Picture{File: "maps/spring.png", Alt: "A map", Width: 10, Height: 10},
			Rows: []report.Row{
				{Window: &window, Name: "Wendrow", Dated: true, Calendar: status.Calendar{AheadFrom: -10, OntimeFrom: 11, OntimeTo: 40, CatchupTo: 80}},
				{Window: &window, Name: "Éstrey", Shares: zonal.Summary{AlwaysShare: 1}},
			},
			Bands: []site.Band{{Label: "Mar 12–18", Km2: 12345.6, Share: 0.004}},
		}},
	}
}

func written(t testing.TB, e site.Edition) string {
	t.Helper()
	dir := t.TempDir()
	root, err := os.OpenRoot(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer root.Close()
	if err := site.Write(root, e); err != nil {
		t.Fatal(err)
	}
	text, err := root.ReadFile("index.html")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestNamesAreText(t *testing.T) {
	page := written(t, edition())
	if strings.Contains(page, "<script") || strings.Contains(page, "<weeds>") {
		t.Error("a title became markup")
	}
	if !strings.Contains(page, "&lt;script&gt;") {
		t.Error("the title is not on the page")
	}
}

func TestPageTellsEverything(t *testing.T) {
	page := written(t, edition())
	for _, want := range []string{
		"Check your soil.", "The label is the law.", "Within a week or so.", "Jan 11–Feb 8", "always above the threshold",
		"under 1 %", "12\u2009346", `alt="A map"`, `lang="en"`,
	} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if strings.Index(page, "Éstrey") > strings.Index(page, "Wendrow") {
		t.Error("regions are not in the order of their names")
	}
	for _, outside := range []string{"http://", "https://", "//cdn", "style="} {
		if strings.Contains(page, outside) {
			t.Errorf("the page holds %q: nothing may be fetched from elsewhere, nor need inline styles", outside)
		}
	}
}

// A stretch over New Year stands in two pieces in the strip.
func TestStripWrapsOverNewYear(t *testing.T) {
	page := written(t, edition())
	if got := strings.Count(page, `<rect class="ahead"`); got != 2 {
		t.Errorf("ahead of time from 22 December to 11 January stands in %d pieces, want 2", got)
	}
	if got := strings.Count(page, `<rect class="ontime"`); got != 1 {
		t.Errorf("on time stands in %d pieces, want 1", got)
	}
}

func TestWithoutRegionsThereIsNoTable(t *testing.T) {
	e := edition()
	e.Windows[0].Rows = nil
	if page := written(t, e); strings.Contains(page, "every region") {
		t.Error("the page promises the weeks of every region and has none")
	}
}

// Stills come first; the animation waits folded, unloaded, and has a still for
// readers who ask for less motion.
func TestAnimationWaitsToBeAsked(t *testing.T) {
	e := edition()
	w := &e.Windows[0]
	w.Sheet, w.NarrowSheet = site.Picture{File: "maps/spring-sheet.png", Alt: "Small maps"}, site.Picture{File: "maps/spring-sheet-narrow.png"}
	w.Weeks = []site.Frame{{Week: 11, Picture: site.Picture{File: "weeks/spring/11.png", Alt: "One week"}}}
	if page := written(t, e); !strings.Contains(page, `alt="Small maps"`) || strings.Contains(page, "Play the weeks") {
		t.Error("an edition without animation offers one, or lacks the sheet")
	}
	w.Animation = &site.Animation{Picture: site.Picture{File: "weeks/spring.gif", Alt: "All weeks"}, Still: w.Weeks[0]}
	page := written(t, e)
	const film = `<source media="(prefers-reduced-motion: reduce)" srcset="weeks/spring/11.png"><img loading="lazy" src="weeks/spring.gif"`
	sheet, folded, at := strings.Index(page, "spring-sheet.png"), strings.Index(page, "Play the weeks"), strings.Index(page, film)
	if sheet < 0 || folded < sheet || at < folded || strings.Index(page[folded:], "</details>") < at-folded || !strings.Contains(page, `alt="All weeks"`) {
		t.Errorf("sheet at %d, fold at %d, animation at %d, in this order wanted", sheet, folded, at)
	}
}

func ExampleWrite() {
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
	fmt.Println(site.Write(root, edition()))
	// Output: <nil>
}
