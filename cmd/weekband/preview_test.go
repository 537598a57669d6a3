package main

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"

	cdplog "github.com/chromedp/cdproto/log"
	"github.com/chromedp/chromedp"

	"weekband/cmd/weekband/internal/preview"
	"weekband/grid/oracle"
)

// An interrupt, as Ctrl-C sends it, ends the preview with exit code 0.
func TestPreviewEndsOnInterrupt(t *testing.T) {
	out := t.TempDir()
	for name, text := range map[string]string{"manifest.json": "{}", "index.html": "<p>Vale"} {
		if err := os.WriteFile(filepath.Join(out, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	read, write := io.Pipe()
	ended := make(chan int, 1)
	var log bytes.Buffer
	go func() { ended <- run(t.Context(), []string{"preview", out}, write, &log) }()
	line := make([]byte, 1000)
	n, err := read.Read(line)
	if err != nil {
		t.Fatal(err)
	}
	address := regexp.MustCompile(`^http://127\.0\.0\.1:\d+/ `).FindString(string(line[:n]))
	if address == "" || !strings.Contains(string(line[:n]), out) {
		t.Fatalf("printed %q", line[:n])
	}
	r, err := http.Get(strings.TrimSpace(address))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(r.Body)
	r.Body.Close()
	if err != nil || string(text) != "<p>Vale" {
		t.Errorf("served %q, %v", text, err)
	}
	self, err := os.FindProcess(os.Getpid())
	if err != nil {
		t.Fatal(err)
	}
	if err := self.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	select {
	case code := <-ended:
		if code != exitOK || log.Len() > 0 {
			t.Errorf("exit code %d, said %q", code, &log)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("still serving ten seconds after an interrupt")
	}
}

func TestPreviewRefuses(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"preview", t.TempDir()}, exitData, "is no edition"},
		{[]string{"preview", "gone"}, exitData, "no such file"},
		{[]string{"preview", "gone", "--port", "70000"}, exitUsage, "want 1 to 65535"},
		{[]string{"preview"}, exitUsage, "<out>"},
	} {
		if code, _, log := weekband(t, c.args...); code != c.code || !strings.Contains(log, c.want) {
			t.Errorf("%q: exit code %d, %q; want %d, %q", c.args, code, log, c.code, c.want)
		}
	}
}

// The pages keep the strict policy under which the preview serves them, and
// need nothing that it lacks.
func TestPreviewInABrowser(t *testing.T) {
	oracle.Need(t, "chromium")
	server, err := preview.Listen(demoEdition(t), 0)
	if err != nil {
		t.Fatal(err)
	}
	serving, stop := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(serving) }()
	ctx := browser(t)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	var mu sync.Mutex
	var complaints []string
	if err := chromedp.Listen(ctx, func(ev any) {
		// Browsers ask every host for a favicon.ico, whatever its pages say.
		if e, ok := ev.(*cdplog.EventEntryAdded); ok && !strings.HasSuffix(e.Entry.URL, "/favicon.ico") {
			mu.Lock()
			complaints = append(complaints, e.Entry.Text+" "+e.Entry.URL)
			mu.Unlock()
		}
	}); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(server.Address())); err != nil {
		t.Fatal(err)
	}
	facts, err := chromedp.Run(ctx, chromedp.Evaluate[pageFacts](look))
	if err != nil {
		t.Fatal(err)
	}
	if facts.Images < 2 || len(facts.Broken) > 0 {
		t.Errorf("%d pictures, broken %v", facts.Images, facts.Broken)
	}
	styled, err := chromedp.Run(ctx, chromedp.Evaluate[int]("document.styleSheets[0].cssRules.length"))
	if err != nil || styled < 10 {
		t.Errorf("%d rules of style, %v", styled, err)
	}
	mu.Lock()
	if len(complaints) > 0 {
		t.Errorf("the browser complains: %q", complaints)
	}
	mu.Unlock()
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
}
