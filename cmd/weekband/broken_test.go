package main

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// corpus is where broken inputs lie, beside a sound world that they replace
// one file of.
var corpus = filepath.Join("..", "..", "testdata", "broken")

// broken is what a command must say of a broken input.
type broken struct {
	code int
	want []string // each stands in what it prints; % is the input's own path
}

// refused is a data error with words.
func refused(want ...string) broken { return broken{exitData, want} }

// repaired is no error, with words in the notes.
func repaired(want ...string) broken { return broken{exitOK, want} }

// try runs a command and compares what it prints; it must end by itself with
// the right code, whatever the input.
func (b broken) try(t *testing.T, path string, args ...string) {
	t.Helper()
	var out, log bytes.Buffer
	code := run(t.Context(), args, &out, &log)
	said := log.String() + out.String()
	if code != b.code {
		t.Errorf("exit code %d, want %d:\n%s", code, b.code, said)
	}
	for _, want := range b.want {
		if want = strings.ReplaceAll(want, "%", path); !strings.Contains(said, want) {
			t.Errorf("it says\n%s\nwant %s", said, want)
		}
	}
}

// cases returns the files of a folder of the corpus, each of which must have
// its words.
func cases(t *testing.T, dir string, known map[string]broken) []string {
	t.Helper()
	entries, err := os.ReadDir(filepath.Join(corpus, dir))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		if filepath.Ext(e.Name()) == ".py" {
			continue
		}
		names = append(names, e.Name())
	}
	if want := slices.Sorted(maps.Keys(known)); !slices.Equal(names, want) {
		t.Fatalf("%s has\n%q, the table\n%q", dir, names, want)
	}
	return names
}

// world copies the sound world into a folder, with changes to its recipe, and
// returns the recipe's path. Pairs are old and new words.
func world(t *testing.T, dir string, pairs ...string) string {
	t.Helper()
	if err := os.CopyFS(dir, os.DirFS(filepath.Join(corpus, "world"))); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, "vale.yaml")
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for i := 0; i < len(pairs); i += 2 {
		if !bytes.Contains(text, []byte(pairs[i])) {
			t.Fatalf("the recipe has no %q", pairs[i])
		}
		text = bytes.ReplaceAll(text, []byte(pairs[i]), []byte(pairs[i+1]))
	}
	if err := os.WriteFile(path, text, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// nowhere ends a build after all inputs were read: this file is not there.
const nowhere = "logo: nowhere.png\n"

// What can be repaired is, in one build of everything: the recipe begins with a
// mark and ends its lines in CR LF, the places have semicolons and decimal
// commas, and March stands upside down, which only its coast gives away. Its edition then serves tables of readings.
func TestRepairedInputsBuild(t *testing.T) {
	unraced(t)
	dir := t.TempDir()
	path := world(t, dir, "credits:", "maps: none\ncredits:", "\n", "\r\n", "title: Spring", "\ufefftitle: Spring")
	for from, to := range map[string]string{"tables/places/decimal-commas.csv": "places.csv", "grids/upside-down.asc": "tavg-03.asc"} {
		data, err := os.ReadFile(filepath.Join(corpus, filepath.FromSlash(from)))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, to), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	out := filepath.Join(dir, "out")
	repaired("note: %: left out the byte order mark at its beginning; took CR LF for the ends of lines",
		"places.csv: took semicolons for the separators of columns; read decimal commas as points, 6 of them",
		"note: 6 cells have a temperature in some months only and are left out; does one of the files cover other ground, or stand upside down?",
		"done: open").try(t, path, "build", path, "--out", out)
	manifest, err := os.ReadFile(filepath.Join(out, "manifest.json"))
	if err != nil || !bytes.Contains(manifest, []byte("took semicolons for the separators")) {
		t.Errorf("the manifest does not tell of the repair: %v", err)
	}
	for _, name := range cases(t, "tables/readings", brokenReadings) {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(corpus, "tables", "readings", name)
			brokenReadings[name].try(t, path, "verify", out, path)
		})
	}
}

var brokenReadings = map[string]broken{
	"day-first.csv":      refused(`%:2: date "08.03.2026" is no date; want year, month and day, such as 2026-03-25: other orders cannot be told apart`),
	"decimal-commas.csv": repaired("note: %: took semicolons for the separators of columns; read decimal commas as points, 6 of them", "1 thermometers with 2 readings"),
	"header-only.csv":    refused("%: no reading below the first line"),
	"moved.csv":          refused(`%:3: "Lowen Strand" is at 40.2100, -50.4300 here and at 40.3100`, "want one position for a place"),
	"no-unit.csv":        refused(`%:2: soil: temperature "46.5" has no unit; write 46.5 °F or 46.5 °C`, `%:3: soil: temperature "58.5" has no unit`),
	"off-the-map.csv":    refused("%: none of the thermometers lies on the map; are lat and lon right, north and east positive?"),
	"tabs.csv":           repaired("note: %: took tabs for the separators of columns", "1 thermometers with 2 readings"),
}
