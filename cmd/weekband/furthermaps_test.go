package main

import (
	"encoding/json"
	"image/color"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"weekband/cmd/weekband/internal/atlas"
	"weekband/cmd/weekband/internal/inputs"
	"weekband/cmd/weekband/internal/output"
	"weekband/cmd/weekband/internal/recipe"
	"weekband/cmd/weekband/internal/tracing"
	"weekband/grid"
	"weekband/grid/season"
	"weekband/grid/weeks"
	"weekband/render/looks"
)

// builtWith builds the demo with other lines in its recipe.
func builtWith(t *testing.T, lines string) (out, log string) {
	t.Helper()
	dir, text := unpacked(t)
	path := filepath.Join(dir, "recipe.yaml")
	if err := os.WriteFile(path, []byte(text+lines), 0o644); err != nil {
		t.Fatal(err)
	}
	out = filepath.Join(t.TempDir(), "out")
	code, _, log := weekband(t, "build", path, "--out", out)
	if code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	return out, log
}

func mapNames(t *testing.T, out, pattern string) (names []string) {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(out, "maps", pattern))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		names = append(names, filepath.Base(f))
	}
	return names
}

// A recipe gets the maps it asks for, each with words on the page, and hears
// why one is missing.
func TestMapsOfARecipe(t *testing.T) {
	unraced(t)
	out, log := builtWith(t, "maps: [spread, worth]\nworth_of: [03-25, 10-05]\n")
	want := []string{"summer-annuals-grey.png", "summer-annuals-narrow.png", "summer-annuals-page.png", "summer-annuals-sheet-narrow.png", "summer-annuals-sheet.png", "summer-annuals-worth-12.png"}
	if got := mapNames(t, out, "summer-annuals-*.png"); !slices.Equal(got, want) {
		t.Errorf("maps %q, want %q", got, want)
	}
	if note := "no map of the spread"; !strings.Contains(log, note) {
		t.Errorf("the log lacks %q:\n%s", note, log)
	}
	page := windowPages(t, out)
	for _, words := range []string{"More maps", "the week of Mar\u00a019–25 would still stop", `src="../maps/winter-annuals-worth-40.png"`, "percent; the middle is"} {
		if !strings.Contains(page, words) {
			t.Errorf("the page lacks %q", words)
		}
	}
	text, err := os.ReadFile(filepath.Join(out, "manifest.json"))
	if err != nil {
		t.Fatal(err)
	}
	var m output.Manifest
	if err := json.Unmarshal(text, &m); err != nil || !slices.ContainsFunc(m.Notes, func(n string) bool { return strings.Contains(n, "no map of the spread") }) {
		t.Errorf("the manifest's notes are %q; %v", m.Notes, err)
	}
	if out, _ = builtWith(t, "maps: none\n"); len(mapNames(t, out, "*-early.png")) > 0 || len(mapNames(t, out, "*-error.png")) > 0 {
		t.Error("none draws some")
	}
}

// windowPages are the pages of all windows of an edition.
func windowPages(t *testing.T, out string) string {
	t.Helper()
	var all strings.Builder
	for _, id := range windowIDs {
		text, err := os.ReadFile(filepath.Join(out, "windows", id+".html"))
		if err != nil {
			t.Fatal(err)
		}
		all.Write(text)
	}
	return all.String()
}

// The page shows the further maps of the demo with descriptions that hold
// their kind and range.
func TestDemoTellsOfFurtherMaps(t *testing.T) {
	page := windowPages(t, demoEdition(t))
	alt := func(file string) string {
		m := regexp.MustCompile(`<img loading="lazy" src="\.\./` + regexp.QuoteMeta(file) + `" width="\d+" height="\d+" alt="([^"]*)"`).FindStringSubmatch(page)
		if m == nil {
			t.Fatalf("the page does not show %s", file)
		}
		return strings.ReplaceAll(m[1], "\u00a0", " ")
	}
	for file, want := range map[string]string{
		"maps/summer-annuals-early.png": "warms to 55 °F (12.8 °C) in an early year (one of ten). Nine tenths of the ground",
		"maps/winter-annuals-late.png":  "cools to 70 °F (21.1 °C) in a late year (one of ten). Nine tenths of the ground",
		"maps/summer-annuals-error.png": "Expected error of the typical day",
	} {
		if got := alt(file); !strings.Contains(got, want) {
			t.Errorf("%s is described as %q, want %q in it", file, got, want)
		}
	}
}

// demoFields works out the demo's fields.
func demoFields(t *testing.T) []*weeks.Field {
	t.Helper()
	dir, text := unpacked(t)
	_, fields := opened(t, dir, text)
	return fields
}

// The maps of early, typical and late weeks take their colours from one
// palette, keyed to the week.
func TestOneWeekOneColour(t *testing.T) {
	out := demoEdition(t)
	legend := func(name string) map[color.NRGBA]bool {
		im := pictureIn(t, filepath.Join(out, "maps", name))
		seen := map[color.NRGBA]int{}
		for y := im.Bounds().Min.Y; y < im.Bounds().Max.Y; y += 2 {
			for x := im.Bounds().Min.X; x < im.Bounds().Max.X; x += 2 {
				seen[color.NRGBAModel.Convert(im.At(x, y)).(color.NRGBA)]++
			}
		}
		common := map[color.NRGBA]bool{}
		for c, n := range seen {
			common[c] = n > 300
		}
		return common
	}
	for _, f := range demoFields(t) {
		list, err := tracing.Trace(t.Context(), []*weeks.Field{f}, recipe.DefaultMaps, tracing.Detail{Large: 1, Frames: 1, Files: 1}, nil)
		if err != nil {
			t.Fatal(err)
		}
		d := list[0]
		palette := looks.NewPalette(len(d.Scale))
		for name, days := range map[string]*grid.Raster[float32]{"-early.png": d.Early, ".png": f.Day, "-late.png": d.Late} {
			bands, from := weeks.Shown(d.Scale, days)
			shown := legend(f.Window.ID + name)
			for i := from; i < from+len(bands); i++ {
				found := false
				for c, often := range shown {
					found = found || often && near(c, palette[i])
				}
				if !found {
					t.Errorf("%s%s: no ground nor legend has the colour %v of %s", f.Window.ID, name, palette[i], d.Scale[i].Label())
				}
			}
		}
	}
}

// near reports whether a paletted pixel has a colour.
func near(a, b color.NRGBA) bool {
	off := func(x, y uint8) bool { return max(x, y)-min(x, y) > 2 }
	return !off(a.R, b.R) && !off(a.G, b.G) && !off(a.B, b.B)
}

// A week that lies in no window's season is told.
func TestWorthOfAWeekOutsideAllSeasons(t *testing.T) {
	g, err := grid.New(grid.Box{West: -50, South: 35, East: -49, North: 36}, 2, 2)
	if err != nil {
		t.Fatal(err)
	}
	in := &inputs.Set{}
	atlas.NoteUndrawn(in, &recipe.Recipe{Looks: recipe.Looks{WorthOf: []season.Week{47}}}, []*weeks.Field{{Day: grid.NewRaster[float32](g)}})
	if len(in.Notes) != 1 || !strings.Contains(in.Notes[0], "no map of the worth of Nov 19–25") {
		t.Errorf("notes %q", in.Notes)
	}
}
