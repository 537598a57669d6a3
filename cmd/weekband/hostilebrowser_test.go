package main

import (
	"context"
	"net/url"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// noDialogs turns what would stop a page into a trace that a test finds.
const noDialogs = `for (const name of ["alert", "confirm", "prompt", "print"]) globalThis[name] = () => { globalThis.hacked = name; };`

// A browser that opens pages with hostile names, looks such a place up and
// follows a link with one runs none of it, asks for nothing elsewhere and has
// nothing to complain of.
func TestHostileNamesInABrowser(t *testing.T) {
	edition, _, _ := hostileEditions(t)
	r := newReader(t, 1280)
	seen := watch(t, r.ctx)
	r.do(chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: noDialogs})
		return err
	}))
	unharmed := func(where string) {
		t.Helper()
		if got := r.text(`String(globalThis.hacked)`); got != "undefined" {
			t.Errorf("%s: a script of a name ran: %s", where, got)
		}
		if got := r.text(`[...document.querySelectorAll("[onerror],[onload],[onclick],[onmouseover],img[src=x],main script:not([type])")].map(e => e.outerHTML).join()`); got != "" {
			t.Errorf("%s: a name became %s", where, got)
		}
	}
	var pages []string
	for name := range files(t, edition) {
		if strings.HasSuffix(name, ".html") && (!strings.Contains(name, "/") || strings.Contains(name, "hacked") || strings.Contains(name, "spring") || strings.HasSuffix(name, "/index.html")) {
			pages = append(pages, name)
		}
	}
	slices.Sort(pages)
	if len(pages) < 12 {
		t.Errorf("only the pages %q", pages)
	}
	for _, base := range []string{served(t, edition), "file://" + filepath.ToSlash(edition) + "/"} {
		seen.Lock()
		seen.origin = base
		seen.Unlock()
		for i, name := range pages {
			if i%3 > 0 && strings.HasPrefix(base, "file:") { // the policy of a server may hide what runs here
				continue
			}
			r.do(chromedp.Navigate(base + name))
			unharmed(name)
		}
		for _, name := range attacks[:8] {
			r.do(chromedp.Navigate("about:blank"), chromedp.Navigate(base+"index.html#at=37.0,-49.3,"+url.PathEscape(name)))
			r.until("an answer", `!document.getElementById("answer").hidden`)
			unharmed("a link with " + name)
		}
		r.do(chromedp.Navigate("about:blank"), chromedp.Navigate(base+"lookup.html"))
		r.find("script hacked")
		if got := r.text(`document.getElementById("answer").textContent`); !strings.Contains(got, "<script>") {
			t.Errorf("the answer does not name the place: %s", got)
		}
		unharmed("an answer")
	}
	seen.Lock()
	defer seen.Unlock()
	if seen.requests == 0 || len(seen.complaints) > 0 {
		t.Errorf("%d requests; the browser complains: %q", seen.requests, seen.complaints)
	}
}
