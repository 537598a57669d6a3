package main

import (
	"context"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"weekband/grid/oracle"
	"weekband/regions/report"
	"weekband/regions/zonal"
	"weekband/render/chart"
	"weekband/render/site"
	"weekband/render/wording"
)

// demoCharts returns the four charts of each window of the demo, those of a
// region of its middle one.
func demoCharts(t *testing.T) []chart.Chart {
	t.Helper()
	dir, text := unpacked(t)
	in, fields := opened(t, dir, text)
	rows := report.Build(fields, in.Areas, zonal.CoverAll(in.Areas, in.Normals.Grid()))
	lang := wording.English()
	var list []chart.Chart
	for _, f := range fields {
		mine := report.Of(rows, f.Window.ID)
		middle := &mine[len(mine)/2]
		for _, draw := range []func() (chart.Chart, bool){
			func() (chart.Chart, bool) { return chart.Statuses(lang, mine) },
			func() (chart.Chart, bool) { return chart.Soil(lang, middle, "soil at 4 in (10 cm)") },
			func() (chart.Chart, bool) { return chart.Worth(lang, middle) },
			func() (chart.Chart, bool) { return chart.Relation(lang, f, in.Terrain) },
		} {
			c, ok := draw()
			if !ok {
				t.Fatalf("%s: chart %d is not there", f.Window.ID, len(list)%4)
			}
			list = append(list, c)
		}
	}
	return list
}

// chartPage writes a page of charts with all it needs and returns its folder.
func chartPage(t *testing.T, list []chart.Chart) string {
	t.Helper()
	dir := t.TempDir()
	var b strings.Builder
	b.WriteString(`<!doctype html><html lang="en" data-unit="F" data-order="month-first"><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1">` +
		`<title>Charts</title><link rel="icon" href="data:,"><link rel="stylesheet" href="assets/style.css"><link rel="stylesheet" href="assets/charts.css"><script defer src="assets/charts.js"></script><main>`)
	for _, c := range list {
		figure, err := c.HTML()
		if err != nil {
			t.Fatal(err)
		}
		b.WriteString(string(figure))
	}
	if err := os.CopyFS(filepath.Join(dir, "assets"), chart.Assets()); err != nil {
		t.Fatal(err)
	}
	style, err := fs.ReadFile(os.DirFS(filepath.Join("..", "..", "render", "site")), "assets/style.css")
	if err != nil {
		t.Fatal(err)
	}
	write(t, filepath.Join(dir, "assets", "style.css"), string(style))
	write(t, filepath.Join(dir, "assets", "charts.js"), site.ChartScript())
	write(t, filepath.Join(dir, "index.html"), b.String()+"</main></html>")
	return dir
}

// chartFacts is what a browser sees of the charts of a page.
type chartFacts struct {
	Overflow int      `json:"overflow"` // pixels by which the page is wider than the screen
	Figures  int      `json:"figures"`
	Blank    []string `json:"blank"`    // charts with few colours in their canvas
	Undrawn  []string `json:"undrawn"`  // charts without a canvas, or with an open table
	Unspoken []string `json:"unspoken"` // charts without a label for those who do not see them
	Silent   []string `json:"silent"`   // charts that tell nothing under the pointer
	Stiff    []string `json:"stiff"`    // charts that stay as they are in other units and dates, or do not come back
}

const lookAtCharts = `(async () => {
  const figures = [...document.querySelectorAll('figure.chart')];
  for (const f of figures) {
    f.scrollIntoView();
    for (let i = 0; i < 100 && !f.classList.contains('drawn'); i++) await new Promise(r => setTimeout(r, 20));
  }
  await new Promise(r => setTimeout(r, 100));
  const board = f => { // all canvases of a chart, one on the other
    const layers = [...f.querySelectorAll('canvas')];
    const c = Object.assign(document.createElement('canvas'), {width: layers[0].width, height: layers[0].height});
    for (const l of layers) c.getContext('2d').drawImage(l, 0, 0);
    return c;
  };
  const colours = f => {
    const c = board(f);
    const data = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;
    const seen = new Map();
    for (let i = 0; i < data.length; i += 4) if (data[i + 3] > 200) {
      const k = data[i] >> 5 << 10 | data[i + 1] >> 5 << 5 | data[i + 2] >> 5;
      seen.set(k, (seen.get(k) || 0) + 1);
    }
    return [...seen.values()].filter(n => n > 150).length;
  };
  const drawn = figures.filter(f => f.querySelector('canvas'));
  const pictures = () => drawn.map(f => board(f).toDataURL());
  const prefer = (unit, order) => {
    Object.assign(document.documentElement.dataset, {unit, order});
    document.dispatchEvent(new CustomEvent('weekband:choice', {detail: {unit, order}}));
  };
  const before = pictures();
  prefer('C', 'day-first');
  const metric = pictures();
  prefer('F', 'month-first');
  const after = pictures();
  for (const f of drawn) {
    f.scrollIntoView();
    const box = f.querySelector('canvas').getBoundingClientRect();
    const at = {clientX: box.left + box.width * .55, clientY: box.top + box.height * .5, bubbles: true};
    for (const kind of ['mouseover', 'mousemove']) f.querySelector('canvas').dispatchEvent(new MouseEvent(kind, at));
  }
  await new Promise(r => setTimeout(r, 300));
  const pointed = pictures();
  window.scrollTo(0, 0);
  return {
    overflow: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    figures: figures.length,
    blank: drawn.filter(f => colours(f) < 3).map(f => f.id),
    undrawn: figures.filter(f => !drawn.includes(f) || f.querySelector('details').open).map(f => f.id),
    unspoken: figures.filter(f => f.querySelector('.board').getAttribute('aria-label') !== f.querySelector('.says').textContent).map(f => f.id),
    silent: drawn.filter((f, i) => !f.id.startsWith('elevation') && pointed[i] === after[i]).map(f => f.id),
    stiff: drawn.filter((f, i) => !f.id.startsWith('statuses') && metric[i] === before[i] && !f.id.startsWith('worth') || after[i] !== before[i]).map(f => f.id),
  };
})()`

// checkCharts looks at a page of charts on a phone and on a desk.
func checkCharts(t *testing.T, ctx context.Context, w *watcher, page string) {
	t.Helper()
	for _, width := range []int64{360, 1280} {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate(page)); err != nil {
			t.Fatal(err)
		}
		facts, err := chromedp.Run(ctx, chromedp.Evaluate[chartFacts](lookAtCharts, chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		if facts.Figures != 8 || facts.Overflow > 0 || len(facts.Blank)+len(facts.Undrawn)+len(facts.Unspoken)+len(facts.Silent)+len(facts.Stiff) > 0 {
			t.Errorf("%s at %d px: %+v", page, width, facts)
		}
	}
	w.Lock()
	defer w.Unlock()
	if w.requests == 0 || len(w.complaints) > 0 {
		t.Errorf("%s: of %d requests and all that was said: %q", page, w.requests, w.complaints)
	}
}

// The charts are drawn from file:// and under a policy that allows nothing but
// files of the site, and ask nothing of anyone else.
func TestChartsInABrowser(t *testing.T) {
	unraced(t)
	oracle.Need(t, "chromium")
	dir := chartPage(t, demoCharts(t))
	ctx := browser(t)
	w := watch(t, ctx)
	w.origin = "file://" + filepath.ToSlash(dir) + "/"
	checkCharts(t, ctx, w, w.origin+"index.html")

	files := http.FileServer(http.Dir(dir))
	server := httptest.NewServer(http.HandlerFunc(func(out http.ResponseWriter, in *http.Request) {
		out.Header().Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:")
		files.ServeHTTP(out, in)
	}))
	defer server.Close()
	w.Lock()
	w.origin = server.URL + "/"
	w.Unlock()
	checkCharts(t, ctx, w, w.origin)
}

// darkens reports whether charts change when the screen turns dark, and come
// back when it turns light after a print.
func darkens(t *testing.T, ctx context.Context) bool {
	t.Helper()
	const pictures = `[...document.querySelectorAll('canvas')].map(c => c.toDataURL()).join()`
	see := func(scheme string) string {
		err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, page *chromedp.Target) error {
			_, err := cdp.Call(ctx, page, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
				Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}},
			})
			return err
		}), chromedp.Sleep(200*time.Millisecond))
		if err != nil {
			t.Fatal(err)
		}
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](pictures))
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	see("dark") // and what the pointer lit up is gone
	light := see("light")
	dark := see("dark")
	if _, err := chromedp.Run(ctx, chromedp.PrintToPDF()); err != nil { // which changes room and colours
		t.Fatal(err)
	}
	return light != dark && light == see("light")
}

// A screen that turns dark turns the charts dark, and back. Without the library
// the tables are open and no empty frame stands in their place; so they are
// when no script runs.
func TestChartsInTheDarkAndMissing(t *testing.T) {
	unraced(t)
	oracle.Need(t, "chromium")
	dir := chartPage(t, demoCharts(t)[:4])
	page := "file://" + filepath.ToSlash(dir) + "/index.html"
	ctx := browser(t)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(800, 600), chromedp.Navigate(page)); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[chartFacts](lookAtCharts, chromedp.EvalAwaitPromise)); err != nil {
		t.Fatal(err)
	}
	if !darkens(t, ctx) {
		t.Error("the charts keep their colours on a dark screen, or do not find back")
	}
	const tables = `(async () => {
	  const shown = () => [...document.querySelectorAll('figure.chart')].filter(f => f.querySelector('td').getClientRects().length > 0 && f.querySelector('.board').getClientRects().length === 0).length;
	  for (const f of document.querySelectorAll('figure.chart')) { f.scrollIntoView(); await new Promise(r => setTimeout(r, 100)); }
	  return shown();
	})()`
	for _, missing := range []string{"echarts.js", "charts.js"} {
		if err := os.Remove(filepath.Join(dir, "assets", missing)); err != nil {
			t.Fatal(err)
		}
		if err := chromedp.Do(ctx, chromedp.Navigate(page)); err != nil {
			t.Fatal(err)
		}
		if n, err := chromedp.Run(ctx, chromedp.Evaluate[int](tables, chromedp.EvalAwaitPromise)); err != nil || n != 4 {
			t.Errorf("without %s %d of 4 charts show their tables (%v)", missing, n, err)
		}
	}
}
