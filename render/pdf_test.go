package render_test

import (
	"encoding/xml"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"weekband/grid/oracle"
	"weekband/render"
	"weekband/render/press"
)

// written writes a file into the test's folder.
func written(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// Poppler's pdffonts finds every font embedded and with a map to Unicode, and
// pdfinfo one sheet that says what it is.
func TestPDFDocument(t *testing.T) {
	oracle.Need(t, "pdffonts", "pdfinfo")
	for name, p := range vectorPages(t) {
		path := written(t, "page.pdf", pdfOf(t, p, press.A4))
		fonts := strings.Split(strings.TrimSpace(string(oracle.Run(t, nil, "pdffonts", path))), "\n")[2:]
		if len(fonts) < 3 {
			t.Errorf("%s: %d fonts", name, len(fonts))
		}
		for _, line := range fonts {
			if f := strings.Fields(line); len(f) < 7 || f[4] != "yes" || f[6] != "yes" {
				t.Errorf("%s: font %q is not embedded, or not in Unicode", name, line)
			}
		}
		info := string(oracle.Run(t, nil, "pdfinfo", path))
		size := "841.89 x 595.28 pts (A4)"
		if p.Layout.Height > p.Layout.Width {
			size = "595.28 x 841.89 pts (A4)"
		}
		for _, want := range []string{described.Title, "North later than south.", "Pages:           1\n", size, "Jan  1 00:00:00 1970"} {
			if !strings.Contains(info, want) {
				t.Errorf("%s: pdfinfo says nothing of %q:\n%s", name, want, info)
			}
		}
	}
}

// pdfWords is what pdftotext -bbox writes.
type pdfWords struct {
	Words []struct {
		Left   float64 `xml:"xMin,attr"`
		Right  float64 `xml:"xMax,attr"`
		Top    float64 `xml:"yMin,attr"`
		Bottom float64 `xml:"yMax,attr"`
		Text   string  `xml:",chardata"`
	} `xml:"body>doc>page>word"`
}

// Poppler's pdftotext finds the words of every text where the layout has them,
// once each, on either paper.
func TestPDFWords(t *testing.T) {
	unraced(t)
	oracle.Need(t, "pdftotext")
	for name, p := range vectorPages(t) {
		for _, size := range []press.PaperSize{press.Letter, press.A4} {
			path := written(t, "page.pdf", pdfOf(t, p, size))
			var found pdfWords
			if err := xml.Unmarshal(oracle.Run(t, nil, "pdftotext", "-bbox", path, "-"), &found); err != nil {
				t.Fatal(err)
			}
			scale, left, top := size.Laid(p.Layout)
			wanted := 0
			for _, box := range p.Layout.Boxes {
				words := strings.Fields(box.Text)
				wanted += len(words)
				hits := 0
				for _, w := range found.Words {
					x, y := (w.Left-left)/scale, ((w.Top+w.Bottom)/2-top)/scale
					if w.Text == words[0] && math.Abs(x-box.Left) < 0.5 && y > box.Top && y < box.Bottom {
						hits++
					}
				}
				if hits != 1 {
					t.Errorf("%s on %v: %d times %q at %v", name, size, hits, words[0], box.Rect)
				}
			}
			if len(found.Words) < wanted || len(found.Words) > wanted+60 { // a few texts have no box
				t.Errorf("%s on %v: %d words, want %d", name, size, len(found.Words), wanted)
			}
		}
	}
}

// What is outside ASCII can be searched and copied, and a kerned word stays
// one word.
func TestPDFLetters(t *testing.T) {
	oracle.Need(t, "pdftotext")
	m := merrow.bandMap(3)
	m.Title = "AVATAR To We. Yaw – Saint-Éloi, Île, hôtel"
	m.Subtitle = "↑ up → on 55 °F ≥ 12.8 °C “quoted” (brackets) \\ back"
	p := must(must(render.NewAtlas(merrow.territory(), 900)).Bands(m))
	text := string(oracle.Run(t, nil, "pdftotext", written(t, "page.pdf", pdfOf(t, p.Page, press.Letter)), "-"))
	for _, want := range append(strings.Fields(m.Title+" "+m.Subtitle), m.Title, m.Subtitle, "Čerstvá Lhota", "Ångermoor") {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not found in\n%s", want, text[:min(len(text), 400)])
		}
	}
}

// The page keeps 10 mm off every edge and lies when it is wide; sizes of the
// paper as in ISO 216, and 8.5 × 11 in.
func TestPaper(t *testing.T) {
	for _, c := range []struct {
		size                        press.PaperSize
		width, height               float64 // of the page, px
		paperWidth, paperHeightInMM float64
	}{
		{press.Letter, 1200, 900, 279.4, 215.9}, {press.Letter, 900, 1200, 215.9, 279.4},
		{press.A4, 1200, 900, 297, 210}, {press.A4, 480, 2000, 210, 297}, {press.A4, 3000, 400, 297, 210},
	} {
		scale, left, top := c.size.Laid(press.Layout{Width: c.width, Height: c.height})
		mm := func(points float64) float64 { return points / 72 * 25.4 }
		right, bottom := c.paperWidth-mm(left+scale*c.width), c.paperHeightInMM-mm(top+scale*c.height)
		for edge, gap := range map[string]float64{"left": mm(left), "top": mm(top), "right": right, "bottom": bottom} {
			if gap < 10 {
				t.Errorf("%v, page of %g × %g px: %s margin %.1f mm", c.size, c.width, c.height, edge, gap)
			}
		}
		if min(mm(left)+right, mm(top)+bottom) > 24.1 {
			t.Errorf("%v, page of %g × %g px does not fill the paper", c.size, c.width, c.height)
		}
	}
}

// Rendering software reads 300 pixels per inch as 11811 a metre, 0.3 mm off
// in 10 m (PNG, third edition, 11.3.4.3), and the picture is still a picture.
func TestPrintPNG(t *testing.T) {
	unraced(t)
	p := must(must(render.NewAtlas(merrow.territory(), 900)).Bands(merrow.bandMap(3)))
	var out strings.Builder
	if err := p.PrintPNG(&out, press.Print{Width: 7.5}); err != nil {
		t.Fatal(err)
	}
	if got := p.PrintScale(press.Print{Width: 7.5}); got != 2.5 {
		t.Errorf("900 px on 7.5 in at 300 dpi: scale %g, want 2.5", got)
	}
	im := must(png.Decode(strings.NewReader(out.String())))
	for x := range im.Bounds().Max.X { // though its edge may fall within a pixel
		if r, g, b, a := im.At(x, im.Bounds().Max.Y-1).RGBA(); min(r, g, b, a) != 0xffff {
			t.Fatalf("the last row is %v at %d, want white", im.At(x, im.Bounds().Max.Y-1), x)
		}
	}
	path := written(t, "print.png", []byte(out.String()))
	said := string(oracle.Run(t, nil, "file", path))
	if !strings.Contains(said, "2250 x "+strconv.Itoa(int(math.Round(p.Layout.Height*2.5)))) {
		t.Errorf("file says %s", said)
	}
	chunk := "\x00\x00\x00\x09pHYs\x00\x00\x2e\x23\x00\x00\x2e\x23\x01"
	if at := strings.Index(out.String(), chunk); at != 33 {
		t.Errorf("the size stands at byte %d, want 33, after the header", at)
	}
	for want, r := range map[string]press.Print{"above 0": {}, "72 to 1200": {Width: 5, DPI: 9}, "million pixels": {Width: 30}} {
		if err := p.PrintPNG(&out, r); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: error %v, want one with %q", r, err, want)
		}
	}
}
