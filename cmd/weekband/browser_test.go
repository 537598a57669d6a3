package main

import (
	"context"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

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
	ctx, stop = context.WithTimeout(ctx, 2*time.Minute)
	t.Cleanup(stop)
	return ctx
}

// pageFacts is what a browser sees of the index page.
type pageFacts struct {
	Overflow int      `json:"overflow"` // pixels by which the page is wider than the screen
	Images   int      `json:"images"`
	Broken   []string `json:"broken"` // images without a picture
	NoAlt    int      `json:"noAlt"`
	Narrow   bool     `json:"narrow"` // the phone's map is shown
	Small    float64  `json:"small"`  // least font size of body text, px
}

const look = `(() => {
  const images = [...document.images].filter(i => i.loading !== 'lazy');
  return {
    overflow: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    images: images.length,
    broken: images.filter(i => !(i.complete && i.naturalWidth > 0)).map(i => i.src),
    noAlt: [...document.images].filter(i => !i.alt).length,
    narrow: images.some(i => i.currentSrc.includes('-narrow')),
    small: Math.min(...[...document.querySelectorAll('p,li,td,th,a')].map(e => parseFloat(getComputedStyle(e).fontSize))),
  };
})()`

// The page works from file://, at phone and desktop width, shows all its
// pictures, and asks nothing of anyone else.
func TestIndexInABrowser(t *testing.T) {
	oracle.Need(t, "chromium")
	page := "file://" + filepath.ToSlash(filepath.Join(demoEdition(t), "index.html"))
	ctx := browser(t)
	var mu sync.Mutex
	var outside []string
	requests := 0
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	err := chromedp.Listen(ctx, func(ev any) {
		r, ok := ev.(*network.EventRequestWillBeSent)
		if !ok {
			return
		}
		mu.Lock()
		defer mu.Unlock()
		requests++
		if !strings.HasPrefix(r.Request.URL, "file://") && !strings.HasPrefix(r.Request.URL, "data:") {
			outside = append(outside, r.Request.URL)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, width := range []int64{360, 1280} {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(page)); err != nil {
			t.Fatal(err)
		}
		facts, err := chromedp.Run(ctx, chromedp.Evaluate[pageFacts](look))
		if err != nil {
			t.Fatal(err)
		}
		if facts.Overflow > 0 {
			t.Errorf("at %d px the page is %d px too wide", width, facts.Overflow)
		}
		if facts.Images < 2 || len(facts.Broken) > 0 || facts.NoAlt > 0 {
			t.Errorf("at %d px: %d pictures, broken %v, %d without alt text", width, facts.Images, facts.Broken, facts.NoAlt)
		}
		if facts.Narrow != (width < 640) {
			t.Errorf("at %d px the phone's map is shown: %v", width, facts.Narrow)
		}
		if facts.Small < 12 {
			t.Errorf("at %d px some text is %v px", width, facts.Small)
		}
	}
	mu.Lock()
	defer mu.Unlock()
	if requests == 0 || len(outside) > 0 {
		t.Errorf("of %d requests these went outside: %v", requests, outside)
	}
}
