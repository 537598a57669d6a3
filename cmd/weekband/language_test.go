package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// monthFirst finds dates such as "Mar 12", dayFirst such as "12 Mar".
var (
	monthFirst = regexp.MustCompile(`\b(Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)[ \x{a0}]\d`)
	dayFirst   = regexp.MustCompile(`\d[ \x{a0}](Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)\b`)
)

// wordsOfSVG returns all text of an SVG image.
func wordsOfSVG(t *testing.T, text []byte) string {
	t.Helper()
	var b strings.Builder
	dec := xml.NewDecoder(bytes.NewReader(text))
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return b.String()
		}
		if err != nil {
			t.Fatal(err)
		}
		if words, ok := tok.(xml.CharData); ok {
			b.WriteString(string(words) + "\n")
		}
	}
}

// With days first no date of an edition for people has its month first, on
// the page, on the map and in lookups, and data stay as they are.
func TestDayFirstEdition(t *testing.T) {
	unraced(t)
	out, _ := builtWith(t, "dates: day-first\n")
	texts := map[string]string{}
	for _, name := range []string{"index.html", "maps/summer-annuals.svg", "maps/winter-annuals.svg"} {
		text, err := os.ReadFile(filepath.Join(out, filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		texts[name] = string(text)
		if strings.HasSuffix(name, ".svg") {
			texts[name] = wordsOfSVG(t, text)
		}
	}
	code, answer, log := weekband(t, "lookup", out, "Ternholm")
	if code != exitOK {
		t.Fatalf("lookup: %d %s", code, log)
	}
	texts["lookup"] = answer
	for name, text := range texts {
		if wrong := monthFirst.FindAllString(text, 3); wrong != nil || !dayFirst.MatchString(text) {
			t.Errorf("%s: dates %q with the month first, and some with the day: %v", name, wrong, dayFirst.MatchString(text))
		}
	}
	for _, name := range []string{"tables/regions.csv", "tables/worth.csv", "data/bands-summer-annuals.geojson"} {
		one, err := os.ReadFile(filepath.Join(out, filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		two, err := os.ReadFile(filepath.Join(demoEdition(t), filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(one, two) {
			t.Errorf("%s depends on the order of dates", name)
		}
	}
}
