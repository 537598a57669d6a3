package main

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"weekband/cmd/weekband/internal/answer"
	"weekband/grid/season"
)

// pageDay makes pages believe that it is noon of 25 March 2027, and that the
// device is at 37.6 N, 48.6 W, which it tells only when asked.
const pageDay = `{
	const real = Date, now = new real(2027, 2, 25, 12).getTime();
	globalThis.Date = class extends real { constructor(...a) { a.length ? super(...a) : super(now); } static now() { return now; } };
	globalThis.asked = 0;
	Object.defineProperty(navigator, 'geolocation', { value: { getCurrentPosition(tell) { asked++; tell({ coords: { latitude: 37.6, longitude: -48.6 } }); } } });
}`

// reader is somebody before the pages of an edition.
type reader struct {
	t   *testing.T
	ctx context.Context
}

func newReader(t *testing.T, width int64) *reader {
	t.Helper()
	r := &reader{t: t, ctx: browser(t)}
	if err := chromedp.Do(r.ctx); err != nil {
		t.Fatal(err)
	}
	r.do(chromedp.EmulateViewport(width, 800), chromedp.Func(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: pageDay})
		return err
	}))
	return r
}

func (r *reader) do(steps ...chromedp.Action[chromedp.Void]) {
	r.t.Helper()
	if err := chromedp.Do(r.ctx, steps...); err != nil {
		r.t.Fatal(err)
	}
}

// text evaluates a script that gives a text.
func (r *reader) text(script string) string {
	r.t.Helper()
	text, err := chromedp.Run(r.ctx, chromedp.Evaluate[string](script))
	if err != nil {
		r.t.Fatalf("%s: %v", script, err)
	}
	return text
}

// until waits until a script gives true.
func (r *reader) until(what, script string) {
	r.t.Helper()
	for deadline := time.Now().Add(10 * time.Second); time.Now().Before(deadline); time.Sleep(30 * time.Millisecond) {
		if ok, err := chromedp.Run(r.ctx, chromedp.Evaluate[bool](script)); err == nil && ok {
			return
		}
	}
	r.t.Fatalf("waited in vain for %s; the page says %q", what, r.text(`document.getElementById("said")?.textContent + " | " + document.getElementById("answer")?.textContent`))
}

// find types a name and takes the first choice, by keyboard alone.
func (r *reader) find(name string) {
	r.t.Helper()
	r.text(`document.getElementById("place").focus(), document.getElementById("place").select(), ""`)
	r.do(chromedp.KeyEvent(name))
	r.until("choices", `!document.getElementById("choices").hidden && document.getElementById("place").getAttribute("aria-expanded") === "true"`)
	r.do(chromedp.KeyEvent(kb.ArrowDown), chromedp.KeyEvent(kb.Enter))
	r.until("an answer", `!document.getElementById("answer").hidden`)
}

// pageSays is what the answer on a page tells of a window, its days as they stand
// in the page.
type pageSays struct {
	Title        string  `json:"title"`
	From         float64 `json:"from"` // of on time
	To           float64 `json:"to"`
	Week         float64 `json:"week"` // begin of the typical week
	Year         string  // what is said of this year
	Undated      string  // why there is no week
	EarlyAt      float64 `json:"early"`
	LateAt       float64 `json:"late"`
	ExpectedFrom float64 `json:"expected"` // begin of the week expected this year; 0 without
}

const readAnswer = `[...document.querySelectorAll("#answer > section")].map(s => {
	const days = kind => [...s.querySelectorAll("p.says-" + kind + " [data-day], p.says-" + kind + " [data-from]")];
	const number = (list, key, n = 0) => { const e = list.filter(e => key in e.dataset)[n]; return e ? Number(e.dataset[key]) : 0; };
	return {
		title: s.querySelector("h3").textContent,
		from: number(days("weeks"), "from"), to: number(days("weeks"), "to"), week: number(days("typical"), "from"),
		early: number(days("typical"), "day"), late: number(days("typical"), "day", 1),
		expected: number(days("year"), "from"),
		Year: (s.querySelector("p.says-year") || {}).textContent || "", Undated: (s.querySelector("p.says-undated") || {}).textContent || "",
	};
})`

func (r *reader) answer() []pageSays {
	r.t.Helper()
	list, err := chromedp.Run(r.ctx, chromedp.Evaluate[[]pageSays](readAnswer))
	if err != nil {
		r.t.Fatal(err)
	}
	return list
}

// commandSays is what `weekband lookup --json` answers.
func commandSays(t *testing.T, edition, place string, more ...string) answer.Reply {
	t.Helper()
	code, out, log := weekband(t, append([]string{"lookup", edition, place, "--json"}, more...)...)
	if code != exitOK {
		t.Fatalf("lookup %s: exit code %d\n%s", place, code, log)
	}
	var says answer.Reply
	if err := json.Unmarshal([]byte(out), &says); err != nil {
		t.Fatal(err)
	}
	return says
}

// compare holds the answer of a page against the command's, to the day.
func (r *reader) compare(what string, says answer.Reply) {
	r.t.Helper()
	told := r.answer()
	if len(told) != len(says.Windows) {
		r.t.Fatalf("%s: the page tells of %d windows, the command of %d", what, len(told), len(says.Windows))
	}
	day := func(d float64) string { return season.Day(d).ISO() }
	for i, w := range says.Windows {
		p := told[i]
		if p.Title != w.Title {
			r.t.Errorf("%s: window %d is %q, want %q", what, i, p.Title, w.Title)
		}
		if w.Dates == nil {
			if p.Undated == "" {
				r.t.Errorf("%s: %s has no week and the page does not say why", what, w.Window)
			}
			continue
		}
		got := answer.Dates{Week: int(season.Day(p.Week).Week()), EarlyYear: day(p.EarlyAt), LateYear: day(p.LateAt), OntimeFrom: day(p.From), OntimeTo: day(p.To)}
		want := answer.Dates{Week: w.Dates.Week, EarlyYear: w.Dates.EarlyYear, LateYear: w.Dates.LateYear, OntimeFrom: w.Dates.OntimeFrom, OntimeTo: w.Dates.OntimeTo}
		if got != want {
			r.t.Errorf("%s, %s: the page says %+v, the command %+v", what, w.Window, got, want)
		}
		if o := w.Outlook; o != nil && o.State == "expected" && p.ExpectedFrom != 0 {
			if got, want := int(season.Day(p.ExpectedFrom).Week()), int(season.Day(o.Day).Week()); got != want {
				r.t.Errorf("%s, %s: this year the page expects week %d, the command %d", what, w.Window, got, want)
			}
		}
	}
}

// A reader with a phone finds a small town, mistyped, by keyboard; the answer is
// the command's to the day, from files and from a server.
func TestReaderFindsATown(t *testing.T) {
	edition := demoEdition(t)
	for _, base := range []string{"file://" + filepath.ToSlash(edition) + "/", served(t, edition)} {
		for _, at := range []string{"index.html", "lookup.html"} {
			r := newReader(t, 360)
			seen := watch(t, r.ctx)
			seen.origin = base
			r.do(chromedp.Navigate(base + at))
			r.find("Sorelbrigde")
			if name := r.text(`document.querySelector("#answer h2").textContent`); name != "Sorrelbridge" {
				t.Errorf("%s: found %q", base+at, name)
			}
			r.compare(base+at, commandSays(t, edition, "Sorrelbridge"))
			if region := r.text(`document.querySelector("#answer a[href*='regions/']").textContent`); region != "Ellenmark" && region != "Orrendale" {
				t.Errorf("%s: in %q", base+at, region)
			}
			if today := r.text(`document.querySelector("#answer .says-today").textContent`); !strings.Contains(today, "March 25") {
				t.Errorf("%s: today is %q", base+at, today)
			}
			seen.Lock()
			if len(seen.complaints) > 0 {
				t.Errorf("%s: the browser complains: %q", base+at, seen.complaints)
			}
			seen.Unlock()
		}
	}
}

// Codes, regions, positions and links to an answer all find their cell.
func TestReaderFindsByOtherNames(t *testing.T) {
	edition := demoEdition(t)
	r := newReader(t, 1280)
	base := served(t, edition)
	for _, name := range []string{"Vennaford", "Wendrow", "38.2, -45.1", "36.90,-47.35"} {
		r.do(chromedp.Navigate("about:blank"), chromedp.Navigate(base+"index.html"))
		r.find(name)
		r.compare(name, commandSays(t, edition, name))
	}
	link := r.text(`location.hash`)
	r.do(chromedp.Navigate("about:blank"), chromedp.Navigate(base+"index.html"+link))
	r.until("an answer", `!document.getElementById("answer").hidden`)
	r.compare(link, commandSays(t, edition, "36.90,-47.35"))
	r.do(chromedp.Navigate("about:blank"), chromedp.Navigate(base+"index.html#at=10,10,Nowhere"))
	r.until("an answer", `!document.getElementById("answer").hidden`)
	if told := r.answer(); len(told) != 2 || !strings.Contains(told[0].Undated, "No data here") {
		t.Errorf("off the map: %+v", told)
	}
}

// The device's position is asked for by a press of the button only.
func TestReaderUsesTheirPosition(t *testing.T) {
	edition := demoEdition(t)
	r := newReader(t, 360)
	r.do(chromedp.Navigate(served(t, edition) + "index.html"))
	r.find("Vennaford")
	if n := r.text(`String(asked)`); n != "0" {
		t.Errorf("the page asked for the position %s times before anybody wished it", n)
	}
	r.do(chromedp.Click("#here"))
	r.until("an answer for the position", `document.querySelector("#answer h2").textContent.startsWith("37.60")`)
	r.compare("position", commandSays(t, edition, "37.6,-48.6"))
}

// A click on a map answers for the ground under it: one on the pin of a town
// gives that town's weeks again, on both maps and in both sizes.
func TestReaderClicksTheMap(t *testing.T) {
	edition := demoEdition(t)
	base := served(t, edition)
	for _, width := range []int64{360, 1280} {
		r := newReader(t, width)
		for _, panel := range windowIDs {
			r.do(chromedp.Navigate("about:blank"), chromedp.Navigate(base+"index.html"))
			r.find("Vennaford")
			r.do(chromedp.Click("#" + panel + "-tab"))
			r.until("the map", fmt.Sprintf(`(i => i.complete && i.naturalWidth > 0)(document.querySelector("#%s img"))`, panel))
			r.until("a pin", fmt.Sprintf(`!!document.querySelector("#%s .pin")`, panel))
			at, err := chromedp.Run(r.ctx, chromedp.Evaluate[[2]float64](fmt.Sprintf(`(() => {
				const pin = document.querySelector("#%s .pin");
				pin.scrollIntoView({block: "center"});
				const b = pin.getBoundingClientRect();
				return [b.left + b.width / 2, b.top + b.height / 2];
			})()`, panel)))
			if err != nil {
				t.Fatal(err)
			}
			r.do(chromedp.MouseClickXY(at[0], at[1]))
			r.until("an answer for a point", `/°/.test(document.querySelector("#answer h2").textContent)`)
			var lat, lon float64
			if _, err := fmt.Sscanf(r.text(`location.hash`), "#at=%f,%f", &lat, &lon); err != nil {
				t.Fatal(err)
			}
			town := commandSays(t, edition, "Vennaford")
			if off := math.Hypot(lat-town.Lat, lon-town.Lon); off > 0.06 {
				t.Errorf("%s at %d px: the click on the pin is %.3f° off the town", panel, width, off)
			}
			r.compare("click", commandSays(t, edition, fmt.Sprintf("%.4f,%.4f", lat, lon)))
		}
	}
}

// A reading shifts what is expected this year, as the command shifts it, stays
// for the next visit, and goes when removed. Units and order of dates change
// everywhere at once.
func TestReaderEntersAReading(t *testing.T) {
	edition := demoEdition(t)
	r := newReader(t, 360)
	base := served(t, edition)
	r.do(chromedp.Navigate(base + "index.html"))
	r.find("Sorrelbridge")
	r.do(chromedp.Click(".reading summary"), chromedp.SendKeys(`.reading input[inputmode="decimal"]`, "45"), chromedp.Click(".reading form button"))
	r.until("the reading", `document.querySelectorAll(".reading li").length === 1`)
	says := commandSays(t, edition, "Sorrelbridge", "--reading", "2027-03-25=45F")
	r.compare("with a reading", says)
	if o := says.Windows[0].Outlook; o == nil || o.State != "expected" || r.answer()[0].ExpectedFrom == 0 {
		t.Errorf("no week is expected this year: %+v", r.answer()[0])
	}
	r.do(chromedp.Click(`input[value="C"]`), chromedp.Click(`input[value="day-first"]`))
	if note := r.text(`document.querySelector(".reading li").textContent`); !strings.Contains(note, "7.2 °C") || !strings.Contains(note, "25 Mar") {
		t.Errorf("in °C and with the day first the reading is %q", note)
	}
	if words := r.text(`document.querySelector("#answer").textContent`); strings.Contains(words, "°F") || strings.Contains(words, "March 25") {
		t.Errorf("the answer keeps some °F or March 25: %q", words)
	}
	r.do(chromedp.Navigate("about:blank"), chromedp.Navigate(base+"index.html"))
	r.find("Sorrelbridge")
	r.compare("next visit", says)
	if words := r.text(`document.querySelector("table.list td").textContent`); strings.HasPrefix(words, "Mar") {
		t.Errorf("the order of dates is forgotten: %q", words)
	}
	r.do(chromedp.Click(".reading li button"))
	r.until("no reading", `document.querySelectorAll(".reading li").length === 0`)
	if told := r.answer(); told[0].Year != "" {
		t.Errorf("without a reading the page says %q of this year", told[0].Year)
	}
}
