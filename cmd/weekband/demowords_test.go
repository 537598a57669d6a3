package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/grid/oracle"
	"weekband/render/caution"
)

// Poppler's pdftotext finds all cautions on the demo's handouts, on those of a
// window with seeding its last day, and on the sheet of a region of which
// hardly any has a week how much.
func TestDemoHandoutsCarryAllCautions(t *testing.T) {
	oracle.Need(t, "pdftotext")
	out := demoEdition(t)
	for name, more := range map[string][]string{
		"maps/summer-annuals-handout.pdf": {"a week on 43% of its ground only", "Downshore (84%)", "ahead of time still works, but part of the strength is lost"},
		"maps/winter-annuals-handout.pdf": {"the last application that keeps it open is on Jun 30", "a week on 4% of its ground only"},
		"handouts/skarrow-winter-annuals.pdf": {
			"These weeks hold for 4% of the region's ground Typical week", "Last application that keeps seeding on Sep 15 open Jun 30; seeding costs 62 of the 64 days",
		},
		"handouts/orrendale-summer-annuals.pdf": {"Eight tenths of the ground that has a week"},
	} {
		text := strings.Join(strings.Fields(string(oracle.Run(t, nil, "pdftotext", filepath.Join(out, filepath.FromSlash(name)), "-"))), " ")
		for _, want := range append(more, caution.All[:]...) {
			if !strings.Contains(text, want) {
				t.Errorf("%s lacks %q:\n%s", name, want, text)
			}
		}
	}
}

// No word of a picture of a map points to what may not be beside it.
func TestMapsAreDescribedByThemselves(t *testing.T) {
	out := demoEdition(t)
	for _, name := range []string{"index.html", "embed.html", "windows/summer-annuals.html", "windows/winter-annuals.html"} {
		page, err := os.ReadFile(filepath.Join(out, filepath.FromSlash(name)))
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(page), "table below holds") || !strings.Contains(string(page), "Earliest in ") {
			t.Errorf("%s: a table is promised, or no map is described", name)
		}
	}
}
