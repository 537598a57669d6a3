package main

import (
	"context"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"weekband/cmd/weekband/internal/preview"
	"weekband/grid/oracle"
)

// browser starts Chromium for one test.
func browser(t *testing.T, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	oracle.Need(t, "chromium")
	opts := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath("chromium"), chromedp.NoSandbox)
	opts = append(opts, more...)
	ctx, stop := chromedp.NewExecAllocator(t.Context(), opts...)
	t.Cleanup(stop)
	ctx, stop = chromedp.NewContext(ctx)
	t.Cleanup(stop)
	ctx, stop = context.WithTimeout(ctx, 5*time.Minute)
	t.Cleanup(stop)
	return ctx
}

// served shows an edition as `weekband preview` does, under its strict policy,
// and returns the address of its pages.
func served(t *testing.T, edition string) string {
	t.Helper()
	handler, err := preview.NewHandler(edition)
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(handler)
	t.Cleanup(server.Close)
	return server.URL + "/"
}

// scheme makes the browser prefer light or dark pages, on screen or on paper.
func scheme(ctx context.Context, name, media string) error {
	return chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, page *chromedp.Target) error {
		_, err := cdp.Call(ctx, page, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Media: media, Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: name}},
		})
		return err
	}))
}

// demoPages are one page of each kind of the demo.
var demoPages = []string{
	"index.html", "lookup.html", "embed.html", "windows/summer-annuals.html", "windows/winter-annuals.html",
	"regions/index.html", "regions/sellow-vale.html", "regions/the-gannays.html", "cards/sellow-vale.html",
}

// pageFacts is what a browser sees of a page.
type pageFacts struct {
	Overflow int      `json:"overflow"` // pixels by which the page is wider than the screen
	Images   int      `json:"images"`
	Broken   []string `json:"broken"` // images without a picture
	NoAlt    int      `json:"noAlt"`
	Narrow   []bool   `json:"narrow"` // which maps are those for phones
	Small    float64  `json:"small"`  // least font size of body text, px
	Low      []string `json:"low"`    // buttons and fields lower than a finger needs
}

const look = `(() => {
  const images = [...document.images].filter(i => i.loading !== 'lazy');
  const lazy = [...document.images].filter(i => i.loading === 'lazy');
  return {
    overflow: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    images: document.images.length,
    broken: images.filter(i => !(i.complete && i.naturalWidth > 0)).map(i => i.src),
    noAlt: [...document.images].filter(i => !i.alt).length,
    narrow: images.filter(i => i.closest('.map')).map(i => i.currentSrc.includes('-narrow')),
    small: Math.min(...[...document.querySelectorAll('p,li,td,th,a,label,span')].filter(e => e.checkVisibility() && e.textContent.trim()).map(e => parseFloat(getComputedStyle(e).fontSize))),
    low: [...document.querySelectorAll('button,input,select')].filter(e => e.checkVisibility() && e.type !== 'radio' && e.getBoundingClientRect().height < 24).map(e => e.outerHTML.slice(0, 60)),
  };
})()`

// Every kind of page works from file:// and from a server with a strict policy,
// at phone and desktop width, shows all its pictures, complains of nothing and
// asks nothing of anyone else.
func TestPagesInABrowser(t *testing.T) {
	edition := demoEdition(t)
	ctx := browser(t)
	seen := watch(t, ctx)
	for _, base := range []string{"file://" + filepath.ToSlash(edition) + "/", served(t, edition)} {
		seen.Lock()
		seen.origin = base
		seen.Unlock()
		for _, page := range demoPages {
			for _, width := range []int64{360, 1280} {
				checkPage(t, ctx, base+page, width)
			}
		}
	}
	seen.Lock()
	defer seen.Unlock()
	if seen.requests == 0 || len(seen.complaints) > 0 {
		t.Errorf("%d requests; the browser complains: %q", seen.requests, seen.complaints)
	}
}

func checkPage(t *testing.T, ctx context.Context, page string, width int64) {
	t.Helper()
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(page)); err != nil {
		t.Fatal(err)
	}
	facts, err := chromedp.Run(ctx, chromedp.Evaluate[pageFacts](look))
	if err != nil {
		t.Fatal(err)
	}
	if facts.Overflow > 0 {
		t.Errorf("%s at %d px is %d px too wide", page, width, facts.Overflow)
	}
	if len(facts.Broken) > 0 || facts.NoAlt > 0 {
		t.Errorf("%s at %d px: of %d pictures broken %v, %d without alt text", page, width, facts.Images, facts.Broken, facts.NoAlt)
	}
	for _, narrow := range facts.Narrow {
		if narrow != (width < 640) {
			t.Errorf("%s at %d px shows the phone's map: %v", page, width, narrow)
		}
	}
	if facts.Small < 12 {
		t.Errorf("%s at %d px: some text is %v px", page, width, facts.Small)
	}
	if len(facts.Low) > 0 {
		t.Errorf("%s at %d px: lower than 24 px (WCAG 2.2, 2.5.8): %q", page, width, facts.Low)
	}
}

// finding is a rule that a page breaks.
type auditFinding struct {
	ID      string   `json:"id"`
	Help    string   `json:"help"`
	Targets []string `json:"targets"`
}

// An audit of accessibility by axe-core, rules of WCAG 2.2 to level AA and best
// practices, finds nothing on any kind of page, light or dark, narrow or wide.
func TestPagesPassAnAudit(t *testing.T) {
	edition := demoEdition(t)
	axe, err := os.ReadFile(oracle.NodeFile(t, "axe-core/axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	ctx := browser(t)
	base := served(t, edition)
	const audit = `(async () => {
		for (const d of document.querySelectorAll('details')) d.open = true;
		await new Promise(r => setTimeout(r, 100));
		const found = await axe.run(document, {runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']});
		return found.violations.map(v => ({id: v.id, help: v.help, targets: v.nodes.slice(0, 4).map(n => n.target.join(' '))}));
	})()`
	for _, colours := range []string{"light", "dark"} {
		if err := scheme(ctx, colours, ""); err != nil {
			t.Fatal(err)
		}
		for i, page := range append(demoPages, "index.html#at=37.6130,-48.5750,Sorrelbridge") {
			width := []int64{360, 1280}[i%2]
			if colours == "dark" {
				width = 1640 - width
			}
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate("about:blank"), chromedp.Navigate(base+page)); err != nil {
				t.Fatal(err)
			}
			if _, err := chromedp.Run(ctx, chromedp.Evaluate[any](string(axe)+";0")); err != nil {
				t.Fatal(err)
			}
			found, err := chromedp.Run(ctx, chromedp.Evaluate[[]auditFinding](audit, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range found {
				t.Errorf("%s, %s, %d px: %s: %s: %q", page, colours, width, f.ID, f.Help, f.Targets)
			}
		}
	}
}

// What a reader waits for at first is light: under 250 KB as sent, compressed,
// map and all; a lookup then takes little more.
func TestFirstViewIsLight(t *testing.T) {
	const most = 250_000
	edition := demoEdition(t)
	base := served(t, edition)
	const sent = `[...performance.getEntriesByType("navigation"), ...performance.getEntriesByType("resource")].reduce((sum, e) => sum + e.transferSize, 0)`
	for _, width := range []int64{360, 1280} {
		r := newReader(t, width)
		r.do(chromedp.Navigate(base + "index.html"))
		first, err := chromedp.Run(r.ctx, chromedp.Evaluate[int](sent))
		if err != nil {
			t.Fatal(err)
		}
		r.find("Vennaford")
		then, err := chromedp.Run(r.ctx, chromedp.Evaluate[int](sent))
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("at %d px %d bytes at first, %d more for a lookup", width, first, then-first)
		if first < 50_000 || first > most {
			t.Errorf("at %d px the first view takes %d bytes, want at most %d", width, first, most)
		}
		if then-first < 1000 || then-first > 60_000 {
			t.Errorf("at %d px a lookup takes %d bytes more", width, then-first)
		}
	}
}

// On paper a page keeps its weeks and cautions and leaves out what only a
// screen can use.
func TestPagesOnPaper(t *testing.T) {
	oracle.Need(t, "pdftotext")
	base := served(t, demoEdition(t))
	r := newReader(t, 1280)
	for page, wants := range map[string][]string{
		"index.html#at=37.6130,-48.5750,Somewhere": {"Somewhere", "On time: March", "Before you act", "The product label is the law: rate", "Mind the reseeding|mind the reseeding"},
		"regions/sellow-vale.html":                 {"On time: Mar 12–Apr 8", "What being early or late costs", "The product label is the law: rate"},
		"windows/summer-annuals.html":              {"The weeks of every region", "Mar 12–Apr 8", "The product label is the law: rate"},
	} {
		r.do(chromedp.Navigate("about:blank"), chromedp.Navigate(base+page))
		if strings.Contains(page, "#") {
			r.until("an answer", `!document.getElementById("answer").hidden`)
		}
		pdf, err := chromedp.Run(r.ctx, chromedp.PrintToPDF())
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(string(oracle.Run(t, pdf, "pdftotext", "-layout", "-", "-"))), " ")
		for _, want := range wants {
			if !slices.ContainsFunc(strings.Split(want, "|"), func(w string) bool { return strings.Contains(text, w) }) {
				t.Errorf("%s on paper lacks %q", page, want)
			}
		}
		for _, screen := range []string{"Find your weeks", "Use my position", "Temperatures in", "Show names with"} {
			if strings.Contains(text, screen) {
				t.Errorf("%s on paper has %q", page, screen)
			}
		}
	}
}
