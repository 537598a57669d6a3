package render_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"weekband/render"
	"weekband/render/press"
)

var described = press.Description{Title: `Weeks of "soil" <at> 4 in & 55 °F`, Desc: "North later than south.\x00", Lang: "en-GB"}

// vectorPages are pages of every kind.
func vectorPages(t testing.TB) map[string]*press.Page {
	t.Helper()
	wide, tall := must(render.NewAtlas(merrow.territory(), 900)), must(render.NewAtlas(skerry.territory(), 900))
	grey := merrow.bandMap(8)
	grey.Grey = true
	chart := agreement(40, 60, 130, 8)
	greyChart := chart
	greyChart.Grey = true
	var weeks []render.StatusMap
	for i := range 6 {
		weeks = append(weeks, merrow.frame(i, 6))
	}
	return map[string]*press.Page{
		"bands": must(wide.Bands(merrow.bandMap(8))).Page, "grey": must(wide.Bands(grey)).Page, "tall": must(tall.Bands(skerry.bandMap(6))).Page,
		"chart": must(chart.Page(900)), "grey chart": must(greyChart.Page(900)), "sheet": wide.Sheet(merrow.bandMap(2).Caption, weeks),
	}
}

func svgOf(t testing.TB, p *press.Page) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := p.SVG(&b, described); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func pdfOf(t testing.TB, p *press.Page, size press.PaperSize) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := p.PDF(&b, size, described); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// vectorText is a text of an SVG image.
type vectorText struct {
	words        string
	x, y, length float64
	anchor       string
}

// readSVG returns the texts and the ids of an SVG image, with the references
// to them, and fails on what is no XML.
func readSVG(t *testing.T, name string, svg []byte) (texts []vectorText, ids, refs []string, root xml.StartElement) {
	t.Helper()
	anchor := ""
	dec := xml.NewDecoder(bytes.NewReader(svg))
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return texts, ids, refs, root
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		switch e := tok.(type) {
		case xml.StartElement:
			a := map[string]string{}
			for _, attr := range e.Attr {
				a[attr.Name.Local] = attr.Value
			}
			switch e.Name.Local {
			case "svg":
				root = e
				refs = append(refs, strings.Fields(a["aria-labelledby"])...)
			case "g":
				anchor = a["text-anchor"]
			case "text":
				number := func(key string) float64 { return must(strconv.ParseFloat(a[key], 64)) }
				texts = append(texts, vectorText{x: number("x"), y: number("y"), length: number("textLength"), anchor: anchor})
			case "script", "image", "a", "foreignObject", "style":
				t.Errorf("%s holds a <%s>", name, e.Name.Local)
			}
			if id := a["id"]; id != "" {
				ids = append(ids, id)
			}
			if ref, ok := strings.CutPrefix(a["href"], "#"); ok {
				refs = append(refs, ref)
			}
			if ref, ok := strings.CutPrefix(a["clip-path"], "url(#"); ok {
				refs = append(refs, strings.TrimSuffix(ref, ")"))
			}
		case xml.CharData:
			if n := len(texts); n > 0 && texts[n-1].words == "" {
				texts[n-1].words = string(e)
			}
		}
	}
}

// The image is XML that asks for nothing outside itself, names itself, and
// whose references lead somewhere.
func TestSVGDocument(t *testing.T) {
	for name, p := range vectorPages(t) {
		svg := svgOf(t, p)
		_, ids, refs, root := readSVG(t, name, svg)
		for _, ref := range refs {
			if !slices.Contains(ids, ref) {
				t.Errorf("%s: nothing has the id %q", name, ref)
			}
		}
		if seen := slices.Compact(slices.Sorted(slices.Values(ids))); len(seen) != len(ids) {
			t.Errorf("%s: %d ids for %d elements", name, len(seen), len(ids))
		}
		a := map[string]string{}
		for _, attr := range root.Attr {
			a[attr.Name.Local] = attr.Value
		}
		if len(refs) < 2 || a["role"] != "img" || a["lang"] != "en-GB" || a["viewBox"] == "" || a["width"] != strconv.Itoa(int(p.Layout.Width)) {
			t.Errorf("%s: the root has the attributes %v", name, a)
		}
		for _, want := range []string{`>Weeks of &#34;soil&#34; &lt;at&gt; 4 in &amp; 55 °F</title>`, ">North later than south.\uFFFD</desc>"} {
			if !bytes.Contains(svg, []byte(want)) {
				t.Errorf("%s lacks %s", name, want)
			}
		}
		if rest := bytes.ReplaceAll(svg, []byte("http://www.w3.org/2000/svg"), nil); bytes.Contains(rest, []byte("//")) {
			t.Errorf("%s refers to something outside", name)
		}
		if len(svg) > 300_000 {
			t.Errorf("%s takes %d bytes", name, len(svg))
		}
	}
}

// Every text of the layout is a text of the image, where the layout has it.
func TestSVGTexts(t *testing.T) {
	for name, p := range vectorPages(t) {
		texts, _, _, _ := readSVG(t, name, svgOf(t, p))
		if len(texts) < len(p.Layout.Boxes) {
			t.Errorf("%s: %d texts for %d boxes", name, len(texts), len(p.Layout.Boxes))
		}
		for _, box := range p.Layout.Boxes {
			if !slices.ContainsFunc(texts, func(v vectorText) bool { return v.fills(box) }) {
				t.Errorf("%s: no text %q fills %v", name, box.Text, box.Rect)
			}
		}
	}
}

// fills reports whether a text stands in a box, to a hundredth of a pixel.
func (v vectorText) fills(b press.Box) bool {
	left := v.x - map[string]float64{"": 0, "middle": v.length / 2, "end": v.length}[v.anchor]
	near := func(a, b float64) bool { return math.Abs(a-b) < 0.02 }
	return v.words == b.Text && near(left, b.Left) && near(left+v.length, b.Right) && v.y > b.Top && v.y < b.Bottom
}

// The bytes do not depend on what was drawn before.
func TestVectorsAreDeterministic(t *testing.T) {
	unraced(t)
	first, second := vectorPages(t), vectorPages(t)
	for name, p := range first {
		svg, pdf := svgOf(t, p), pdfOf(t, p, press.A4)
		encode(t, second[name], 1)
		pdfOf(t, second[name], press.Letter)
		if !bytes.Equal(svg, svgOf(t, second[name])) || !bytes.Equal(svg, svgOf(t, p)) {
			t.Errorf("%s: another SVG", name)
		}
		if !bytes.Equal(pdf, pdfOf(t, second[name], press.A4)) || !bytes.Equal(pdf, pdfOf(t, p, press.A4)) {
			t.Errorf("%s: another PDF", name)
		}
	}
}

func TestDescriptionRefusals(t *testing.T) {
	p := must(must(render.NewAtlas(merrow.territory(), 600)).Bands(merrow.bandMap(2)))
	for want, d := range map[string]press.Description{"without a title": {Title: " "}, "pt-BR": {Title: "x", Lang: "en)"}} {
		for _, err := range []error{p.SVG(io.Discard, d), p.PDF(io.Discard, press.Letter, d)} {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%+v: error %v, want one with %q", d, err, want)
			}
		}
	}
}
