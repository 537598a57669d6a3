package render_test

import (
	"bytes"
	"flag"
	"image"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"weekband/grid/season"
	"weekband/grid/status"
	"weekband/render"
	"weekband/render/daychart"
	"weekband/render/press"
)

var update = flag.Bool("update", false, "draw the pictures in testdata/golden anew; look at each before you commit it")

// golden is a page whose picture is kept, and its scale.
type golden struct {
	page  *press.Page
	scale float64
}

// paint returns the page as it is painted, before it gets a palette. Another
// palette is not what the pictures guard against, and one pixel's rounding may
// turn many entries of it.
func (g golden) paint() *image.NRGBA { return opaque(must(g.page.Paint(g.scale)).Image()) }

// goldenWidth is that of the pictures of maps and charts; handouts are 450.
const goldenWidth = 440

// brief are the words of most pictures: those of the band map are long enough
// to show that, and each word takes room in the repository.
func brief(title string) press.Caption {
	return press.Caption{Title: title, Source: "Invented."}
}

// goldenPages are one page of each kind, drawn from the invented island.
func goldenPages() map[string]golden {
	named := must(render.NewAtlas(merrow.territory(), goldenWidth))
	grey, early, far, hills := merrow.bandMap(8), earlyMap(), overFar(merrow.bandMap(6)), merrow.bandMap(7)
	grey.Grey = true
	amounts, changes, chart, frames := merrow.valueMap(6, false), changeMap(), agreement(24, 60, 130, 8), merrow.frames(6)
	for title, c := range map[string]*press.Caption{
		"Typical week, for copiers": &grey.Caption, "An early year": &early.Caption, "With islands far off": &far.Caption, "With relief": &hills.Caption,
		"Expected error": &amounts.Caption, "How the week moved": &changes.Caption, "Map and thermometers": &chart.Caption, "One week": &frames[3].Caption,
	} {
		*c = brief(title)
	}
	pages := map[string]*press.Page{
		"band-map": must(named.Bands(merrow.bandMap(8))).Page, "grey-band-map": must(named.Bands(grey)).Page, "early-map": must(named.Bands(early)).Page,
		"value-map": must(named.Values(amounts)).Page, "difference-map": must(named.Values(changes)).Page,
		"status-frame": named.Status(frames[3]).Page, "sheet": named.Sheet(brief("Six weeks"), frames),
		"inset-map":       must(must(render.NewAtlas(merrow.spread(), goldenWidth)).Bands(far)).Page,
		"relief-map":      must(must(render.NewAtlas(merrow.hilly(), goldenWidth)).Bands(hills)).Page,
		"agreement-chart": must(chart.Page(goldenWidth)),
	}
	out := map[string]golden{}
	for name, p := range pages {
		out[name] = golden{p, 1}
	}
	atlas, handout := handoutOf(merrow, 14)
	out["handout"] = golden{must(atlas.Handout(handout)).Page, 0.5}
	cards := cards()
	out["card"], out["edition-card"] = golden{cards["two windows"], 0.5}, golden{cards["edition"], 0.5}
	out["region-sheet"] = golden{must(atlas.RegionSheet(merrow.regionSheet())).Page, 0.5}
	return out
}

// earlyMap is the map of an early year: of eight weeks of a shared scale it
// shows the second to the fifth.
func earlyMap() render.BandMap {
	m := merrow.bandMap(4)
	m.Before, m.After = 1, 3
	return m
}

// changeMap shows by how many days something moved.
func changeMap() render.ValueMap {
	m := merrow.valueMap(5, true)
	m.Heading = "Days later (+) or earlier (−)"
	limits := [...]float64{-15, -9, -3, 3, 9, 15}
	for i, label := range []string{"−15 to −9", "−9 to −3", "−3 to +3", "+3 to +9", "+9 to +15"} {
		c := &m.Classes[i]
		c.From, c.To, c.Label = limits[i], limits[i+1], label
	}
	return m
}

// regionSheet is the handout of one region, with an invented year of soil.
func (s island) regionSheet() render.RegionSheet {
	m := s.bandMap(9)
	days := make([]float64, season.YearDays)
	for i := range days {
		days[i] = 11 - 13*math.Cos(2*math.Pi*float64(i-20)/season.YearDays)
	}
	sheet := render.RegionSheet{
		Caption: m.Caption, Map: m, Shape: s.territory().Regions[5].Shape, Chart: "Soil at 4 in in a typical year", Address: "https://soil.example/weeks",
		Soil:  daychart.SoilYear{Days: days, Spread: 3, Threshold: 115.0 / 9, Calendar: status.Calendar{AheadFrom: 84, OntimeFrom: 105, OntimeTo: 119, CatchupTo: 164}},
		Guide: []string{"Find your place.", "Aim for on time.", "Check your own soil."}, Sure: "The typical week is expected to be off by about 5 days.",
	}
	sheet.Title = regionNames[5]
	for i, f := range [][2]string{{"On time", "Apr 15–28"}, {"Ahead of time from", "Mar 25"}, {"Catching up to", "Jun 12"}, {"Early year, late year", "Apr 17, May 11"}} {
		sheet.Facts = append(sheet.Facts, render.Fact{Label: f[0], Value: f[1], Best: i == 0})
	}
	return sheet
}

// raced is true under the race detector, which makes drawing ten times slower.
var raced bool

// unraced skips a test that draws many pages where the race detector runs; the
// gate runs it without.
func unraced(t *testing.T) {
	t.Helper()
	if raced {
		t.Skip("draws many pages; the gate runs it without the race detector")
	}
}

// Every kind of page looks as it did when somebody last looked at it. Run with
// -update to draw the pictures anew, with -artifacts to keep those of a failure.
func TestGolden(t *testing.T) {
	if *update && os.Getenv("CI") != "" {
		t.Fatal("-update in continuous integration: pictures are drawn anew by somebody who looks at them")
	}
	pages := goldenPages()
	kept, err := filepath.Glob("testdata/golden/*.png")
	if err != nil || !*update && len(kept) != len(pages) {
		t.Errorf("%d pictures in testdata/golden for %d pages (%v); run with -update, look at them and remove what is no longer drawn", len(kept), len(pages), err)
	}
	for name, g := range pages {
		t.Run(name, func(t *testing.T) { checkGolden(t, name, g) })
	}
}

func checkGolden(t *testing.T, name string, g golden) {
	path := filepath.Join("testdata", "golden", name+".png")
	if *update {
		var b bytes.Buffer
		if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, picture(t, g.page, g.scale)); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: %.1f kB", path, float64(b.Len())/1000)
		return
	}
	want, got := opaque(decoded(t, path)), g.paint()
	if want.Rect != got.Rect {
		t.Errorf("%s is %v, drawn now %v; run with -update if that is wanted", path, want.Rect.Max, got.Rect.Max)
		save(t, map[string]image.Image{name + " want": want, name + " got": got})
		return
	}
	d := diffPixels(want, got)
	t.Log(d)
	if !d.ok() {
		t.Errorf("%s: %v, want at most %.2f %%; run with -update if that is wanted", path, d, 100*mostStrays)
		save(t, map[string]image.Image{name + " want": want, name + " got": got, name + " difference": d.picture})
	}
}
