package main

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"weekband/grid/oracle"
)

// largestSVG is what a map may take on a slow line, in bytes.
const largestSVG = 600_000

// checkSVG reads an SVG image and returns its title and description.
func checkSVG(t *testing.T, path string) (title, desc string) {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if info, err := f.Stat(); err != nil || info.Size() > largestSVG {
		t.Errorf("%s takes %d bytes (%v), want at most %d", path, info.Size(), err, largestSVG)
	}
	dec, inside := xml.NewDecoder(f), ""
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return title, desc
		}
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		switch e := tok.(type) {
		case xml.StartElement:
			inside = e.Name.Local
		case xml.CharData:
			switch inside {
			case "title":
				title += string(e)
			case "desc":
				desc += string(e)
			}
		case xml.EndElement:
			inside = ""
		}
	}
}

// The demo's maps are there as SVG and as PDF for Letter paper, they say what
// they show, and the page offers them.
func TestDemoVectors(t *testing.T) {
	out := demoEdition(t)
	for _, id := range windowIDs {
		title, desc := checkSVG(t, filepath.Join(out, "maps", id+".svg"))
		if !strings.Contains(title, "germination") || !strings.Contains(desc, "Earliest in ") || strings.Contains(desc, "table below") {
			t.Errorf("%s: title %q, description %q", id, title, desc)
		}
		page, err := os.ReadFile(filepath.Join(out, "windows", id+".html"))
		if err != nil {
			t.Fatal(err)
		}
		for _, ext := range []string{".svg", ".pdf"} {
			if !strings.Contains(string(page), `href="../maps/`+id+ext+`"`) {
				t.Errorf("the page does not offer %s%s", id, ext)
			}
		}
	}
	for _, id := range windowIDs {
		info := string(oracle.Run(t, nil, "pdfinfo", filepath.Join(out, "maps", id+".pdf")))
		if !strings.Contains(info, "(letter)") || !strings.Contains(info, "Earliest in ") {
			t.Errorf("%s: pdfinfo says\n%s", id, info)
		}
	}
}

// The map of a whole country on 10′, with its coasts, stays light, and comes
// on the paper that is asked for.
func TestCountryVectors(t *testing.T) {
	unraced(t)
	dir := t.TempDir()
	text := fmt.Sprintf(`
title: Contiguous United States
edition: 2027
normals: {files: [%q], period: 1981-2010}
windows: [{id: spring, title: Spring, threshold: 55 °F, starts: 50 °F}]
regions: [{file: %q, object: states, name: name}]
paper: a4
`, oracle.Data(t, "us/normals-10min.tif"), oracle.Data(t, "us/states-10m.json"))
	path, out := filepath.Join(dir, "us.yaml"), filepath.Join(dir, "us")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, log := weekband(t, "build", path, "--out", out); code != exitOK {
		t.Fatalf("exit code %d\n%s", code, log)
	}
	checkSVG(t, filepath.Join(out, "maps", "spring.svg"))
	pdf := filepath.Join(out, "maps", "spring.pdf")
	if info := string(oracle.Run(t, nil, "pdfinfo", pdf)); !strings.Contains(info, "(A4)") {
		t.Errorf("pdfinfo says\n%s", info)
	}
	words := string(oracle.Run(t, nil, "pdftotext", pdf, "-"))
	for _, want := range []string{"North Dakota", "North Carolina", "Louisiana", "55 °F"} {
		if !strings.Contains(words, want) {
			t.Errorf("%q cannot be found in the PDF", want)
		}
	}
}
