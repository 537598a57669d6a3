package main

import (
	"context"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// watcher collects what a page asks for and complains of.
type watcher struct {
	sync.Mutex
	origin     string
	requests   int
	complaints []string
}

func watch(t *testing.T, ctx context.Context) *watcher {
	t.Helper()
	w := &watcher{}
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, page *chromedp.Target) error {
		_, err := cdp.Call(ctx, page, log.Enable, cdp.Empty{})
		return err
	}))
	if err != nil {
		t.Fatal(err)
	}
	err = chromedp.Listen(ctx, func(ev any) {
		w.Lock()
		defer w.Unlock()
		switch e := ev.(type) {
		case *network.EventRequestWillBeSent:
			w.requests++
			if !strings.HasPrefix(e.Request.URL, w.origin) && !strings.HasPrefix(e.Request.URL, "data:") {
				w.complaints = append(w.complaints, "outside request "+e.Request.URL)
			}
		case *log.EventEntryAdded:
			w.complaints = append(w.complaints, string(e.Entry.Level)+": "+e.Entry.Text)
		case *runtime.EventConsoleAPICalled:
			for _, a := range e.Args {
				w.complaints = append(w.complaints, "console: "+string(a.Value))
			}
		case *runtime.EventExceptionThrown:
			w.complaints = append(w.complaints, "exception: "+e.ExceptionDetails.Text)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	return w
}
