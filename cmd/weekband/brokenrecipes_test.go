package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// brokenRecipes are recipes and what a build says of them. Those that can be
// repaired name a logo that is not there, so that the build ends after all
// inputs were read.
var brokenRecipes = map[string]broken{
	"mark.yaml":         refused("note: %: left out the byte order mark at its beginning", "nowhere.png: file does not exist"),
	"crlf.yaml":         refused("note: %: took CR LF for the ends of lines", "nowhere.png: file does not exist"),
	"cr.yaml":           refused("note: %: took CR for the ends of lines", "nowhere.png: file does not exist"),
	"utf16-big.yaml":    refused("note: %: read it as UTF-16, as its byte order mark says", "nowhere.png: file does not exist"),
	"utf16-little.yaml": refused("note: %: read it as UTF-16, as its byte order mark says", "nowhere.png: file does not exist"),

	"absurd-threshold.yaml":    refused("%:11:16: threshold 550 °F (287.8 °C) is outside 23 °F (-5 °C) to 113 °F (45 °C); is the unit right?"),
	"anchors.yaml":             refused("%:4:8: title: want one value, found an anchor, alias or tag, which recipes do not use"),
	"binary.yaml":              refused("%:1:1: the byte 0x89 is not UTF-8; want text: is this a file of another kind?"),
	"box-elsewhere.yaml":       refused("normals: the wanted grid (6 rows × 8 columns, west 10,", "lies outside the normals (6 rows × 8 columns, west -52"),
	"deep.yaml":                refused("%:1:108: more than 100 lists or mappings within each other; a recipe has three"),
	"edition-0.yaml":           refused(`%:2:10: edition "0": want a year such as 2027`),
	"edition-20270.yaml":       refused(`%:2:10: edition "20270": want a year such as 2027`),
	"eleven-files.yaml":        refused("normals: 11 files, from ", "want 12 of one month each, or one with 12 or 365 layers; by the names, December is missing"),
	"empty.yaml":               refused("%: the recipe is empty; start with a line such as title: Spring soil warm-up"),
	"foreign-files.yaml":       refused("normals: 19 files, from ", "counties.geojson to", "want 12 of one month each"),
	"ids-twice.yaml":           refused(`%:12:9: id "summer-annuals" stands twice; every window needs its own`),
	"key-twice.yaml":           refused(`%:14:1: key "title" stands twice in the recipe; want it once`),
	"latin1.yaml":              refused("%:11:19: the byte 0xb0 is not UTF-8 (in Latin-1 it would be '°'), and which other encoding is meant cannot be told; save the file as UTF-8"),
	"list-for-mapping.yaml":    refused("%:7:7: soil: want keys with values, such as key: value; found a list"),
	"many-wrong.yaml":          refused("%:1:8: the recipe lacks the key title", `%:1:10: edition "soon": want a year`, `%:4:9: unit "Celsius": want auto, C`, "parishes.geojson: file does not exist; names are relative to the folder of the recipe", "ragged.csv:4: the place has no name"),
	"missing-files.yaml":       refused("regions: ", "parishes.geojson: file does not exist; names are relative", "towns.csv: file does not exist", "no file matches", "tmean-*.asc; names are relative to the folder of the recipe"),
	"no-unit.yaml":             refused(`%:11:16: threshold: temperature "55" has no unit; write 55 °F or 55 °C`),
	"no-windows.yaml":          refused("%:1:6: the recipe lacks the key windows: want a list of windows, each with id, title, threshold and direction"),
	"not-a-box.yaml":           refused("%:14:13: box west -48, south 38, east -52, north 41", "want [west, south, east, north] in degrees, such as"),
	"open-quote.yaml":          refused("%:1:8: not valid YAML: could not find end character of double-quoted text; close the quote that is opened here"),
	"outside-calibration.yaml": refused(`places.csv:1: no column "id"; the first line is "name,lat,lon,code", want id,name`),
	"places-as-normals.yaml":   refused(`places.csv: the first bytes "name,lat,lon,cod" are of no known format; want an Esri ASCII grid, a GeoTIFF or NetCDF classic`),
	"remarks-only.yaml":        refused("%: the recipe is empty; start with a line such as"),
	"same-file-twice.yaml":     refused("tavg-11.asc are both November by their names, and December is missing"),
	"table-as-recipe.yaml":     refused("%:1:1: the recipe: want keys with values, such as key: value; found"),
	"tabs.yaml":                refused("%:4:1: not valid YAML", "indent with blanks, not tabs"),
	"thirteen-files.yaml":      refused("normals: 13 files, from ", "want 12 of one month each"),
	"tiny-cells.yaml":          refused("333585 × 343203 cells are more than"),
	"small-cells.yaml":         refused("33359 rows × 34320 columns are more than 200 million cells", "write larger cells or a smaller box in the recipe, such as grid: {cell: 4 km}"),
	"two-documents.yaml":       refused("%:16:6: a second document begins; want one recipe in a file, without a line ---"),
	"unknown-key.yaml":         refused(`%:14:1: unknown key "credit" in the recipe; did you mean "credits"?`),
	"utf16-unmarked.yaml":      refused("%:1:2: a NUL byte; want text: this is a file of another kind, or UTF-16 without its mark; save it as UTF-8"),
	"wrong-type.yaml":          refused("%:2:10: edition: want one value, found a list"),
}

func TestBrokenRecipes(t *testing.T) {
	for _, name := range cases(t, "recipes", brokenRecipes) {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(corpus, "recipes", name)
			out := filepath.Join(t.TempDir(), "out")
			brokenRecipes[name].try(t, path, "build", path, "--out", out)
			if _, err := os.Stat(out); !os.IsNotExist(err) {
				t.Errorf("there is an edition: %v", err)
			}
		})
	}
}

// A folder, a file of 100 MB, and an output that is an input's folder are no
// recipes' mistakes, and cost no memory.
func TestRecipesThatAreNone(t *testing.T) {
	dir := t.TempDir()
	path := world(t, filepath.Join(dir, "world"))
	large := filepath.Join(dir, "large.yaml")
	if err := os.WriteFile(large, []byte("title: x\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Truncate(large, 100<<20); err != nil {
		t.Fatal(err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	refused("recipe: % is no file; want the YAML file that describes the run").try(t, dir, "build", dir)
	refused("%: more than 128 KB; want the YAML file that describes the run: is this a data file?").try(t, large, "build", large)
	runtime.ReadMemStats(&after)
	if got := after.TotalAlloc - before.TotalAlloc; got > 32<<20 {
		t.Errorf("%d bytes were allocated", got)
	}
	refused("%: it holds files that weekband did not write", "name another folder with --out, or empty it").try(t, filepath.Dir(path), "build", path, "--out", filepath.Dir(path))
	broken{exitUsage, []string{"Try weekband build --help"}}.try(t, "", "build")
}

// One table with hundreds of mistakes hides neither another file nor the count,
// and notes come behind.
func TestOneReport(t *testing.T) {
	dir := t.TempDir()
	many, err := os.ReadFile(filepath.Join(corpus, "tables", "places", "many.csv"))
	if err != nil {
		t.Fatal(err)
	}
	path := world(t, dir, "counties.geojson", "parishes.geojson", "tavg-*.asc", "tmean-*.asc", "\n", "\r\n")
	if err := os.WriteFile(filepath.Join(dir, "places.csv"), many, 0o644); err != nil {
		t.Fatal(err)
	}
	var log strings.Builder
	code := run(t.Context(), []string{"build", path, "--out", filepath.Join(dir, "out")}, &log, &log)
	lines := strings.Split(strings.TrimSpace(log.String()), "\n")
	lines = lines[1:] // what is read
	if code != exitData || len(lines) != 22 || !strings.Contains(lines[0], "parishes.geojson: file does not exist") ||
		!strings.Contains(lines[1], `places.csv:2: Town 0: lat "x" is not a number`) || !strings.Contains(lines[18], "places.csv:19: Town 17") ||
		!strings.Contains(lines[19], "no file matches") || lines[20] != "and 383 more" || !strings.HasPrefix(lines[21], "note: "+path+": took CR LF") {
		t.Errorf("exit code %d, %d lines:\n%s", code, len(lines), log.String())
	}
}
