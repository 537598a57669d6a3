package render_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"strings"
	"testing"

	"weekband/grid/oracle"
	"weekband/render"
	"weekband/render/plane"
	"weekband/render/press"
)

// crest is a logo with a see-through ground: a red disc in the left half and
// nothing else.
func crest(width, height int) *image.NRGBA {
	im := image.NewNRGBA(image.Rect(0, 0, width, height))
	r := float64(min(width/2, height)) / 2
	for y := range height {
		for x := range width {
			if math.Hypot(float64(x)-float64(width)/4, float64(y)-float64(height)/2) < 0.9*r {
				im.SetNRGBA(x, y, color.NRGBA{R: 200, G: 20, B: 30, A: 255})
			}
		}
	}
	return im
}

// titledMap returns a map with a logo, and words enough to reach it.
func titledMap(i island, logo *image.NRGBA) render.BandMap {
	m := i.bandMap(8)
	m.Logo = logo
	m.Title = "Spring soil warm-up of all the shires, isles and skerries of Merrow and what lies beyond"
	return m
}

// checkLogo looks at where a logo stands: in the top right corner, with its
// aspect, off all texts and the map.
func checkLogo(t *testing.T, name string, l press.Layout, size image.Point) {
	t.Helper()
	at := l.Logo
	if at.Width() <= 0 || !at.Within(plane.Rect{Right: l.Width, Bottom: l.Height}) || at.Overlaps(l.Frame) || at.Width() > 0.2*l.Width+1e-9 {
		t.Errorf("%s: a logo at %v on a page %g wide with the map at %v", name, at, l.Width, l.Frame)
	}
	if got, want := at.Width()/at.Height(), float64(size.X)/float64(size.Y); math.Abs(got/want-1) > 1e-9 {
		t.Errorf("%s: aspect %g, want %g", name, got, want)
	}
	if l.Width-at.Right > 0.1*l.Width || at.Top > 0.1*l.Width {
		t.Errorf("%s: the logo at %v is not at the top right", name, at)
	}
	for _, b := range l.Boxes {
		if b.Overlaps(at) {
			t.Errorf("%s: %q at %v lies on the logo at %v", name, b.Text, b.Rect, at)
		}
	}
}

// A logo overlaps nothing on any page of any width, whatever its shape.
func TestLogoHasRoom(t *testing.T) {
	unraced(t)
	for _, size := range []image.Point{{400, 120}, {60, 60}, {40, 400}, {2000, 100}, {3, 2}} {
		logo := crest(size.X, size.Y)
		for _, width := range []int{360, 480, 800, 900, 1200, 1777, 2400} {
			for _, i := range []island{merrow, skerry} {
				a := must(render.NewAtlas(i.territory(), width))
				m := titledMap(i, logo)
				name := fmt.Sprintf("%v at %d px", size, width)
				page := must(a.Bands(m))
				checkLayout(t, name, page.Layout)
				checkLogo(t, name, page.Layout, size)
				checkLogo(t, name+", week", a.Status(render.StatusMap{Caption: m.Caption, Week: "Mar 12–18"}).Layout, size)
				checkLogo(t, name+", sheet", a.Sheet(m.Caption, i.frames(6)).Layout, size)
			}
		}
		a, h := handoutOf(merrow, 9)
		h.Map.Logo = logo
		page := must(a.Handout(h))
		checkHandout(t, "handout", page.Page)
		checkLogo(t, "handout", page.Layout, size)
	}
	if l := must(must(render.NewAtlas(merrow.territory(), 900)).Bands(merrow.bandMap(3))).Layout; l.Logo != (plane.Rect{}) {
		t.Errorf("a page without a logo has one at %v", l.Logo)
	}
}

// The disc of the logo is where the layout says, its see-through ground is
// paper, and both are grey on a grey page; the same page gives the same bytes.
func TestLogoInPixels(t *testing.T) {
	unraced(t)
	logo := crest(900, 300)
	for _, grey := range []bool{false, true} {
		m := titledMap(merrow, logo)
		m.Grey = grey
		a := must(render.NewAtlas(merrow.silent(), 900))
		page := must(a.Bands(m))
		at := page.Layout.Logo
		for _, scale := range []float64{1, 2} {
			im := picture(t, page.Page, scale)
			pixel := func(x, y float64) color.NRGBA {
				return color.NRGBAModel.Convert(im.At(int((at.Left+x*at.Width())*scale), int((at.Top+y*at.Height())*scale))).(color.NRGBA)
			}
			disc, ground := pixel(0.25, 0.5), pixel(0.75, 0.5)
			if !near(ground, color.NRGBA{R: 255, G: 255, B: 255, A: 255}) {
				t.Errorf("grey %v, scale %g: the ground of the logo is %v", grey, scale, ground)
			}
			if red := near(disc, color.NRGBA{R: 200, G: 20, B: 30, A: 255}); red == grey || grey && (disc.R != disc.G || disc.R > 160) {
				t.Errorf("grey %v, scale %g: the disc of the logo is %v", grey, scale, disc)
			}
		}
		var one, two bytes.Buffer
		if page.PNG(&one, 2) != nil || must(a.Bands(m)).PNG(&two, 2) != nil || !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Error("the same page gives other bytes")
		}
	}
}

// SVG and PDF show the logo as the PNG does, in Chromium and in Poppler, and
// do not grow with the file it came from.
func TestLogoInVectors(t *testing.T) {
	unraced(t)
	page := must(must(render.NewAtlas(merrow.territory(), 900)).Bands(titledMap(merrow, crest(1000, 250))))
	bare := must(must(render.NewAtlas(merrow.territory(), 900)).Bands(titledMap(merrow, nil)))
	if svg := string(svgOf(t, page.Page)); strings.Count(svg, "<image ") != 1 || len(svg) > len(svgOf(t, bare.Page))+40_000 {
		t.Errorf("the SVG of %d bytes has %d images", len(svg), strings.Count(svg, "<image "))
	}
	oracle.Need(t, "chromium", "pdftoppm")
	at := page.Layout.Logo
	size := image.Pt(int(page.Layout.Width), int(page.Layout.Height))
	for kind, im := range map[string]*image.NRGBA{"SVG": bySVG(t, page.Page, size), "PDF": byPDF(t, page.Page, press.Letter, size)} {
		disc := im.NRGBAAt(int(at.Left+0.25*at.Width()), int(at.Top+0.5*at.Height()))
		ground := im.NRGBAAt(int(at.Left+0.75*at.Width()), int(at.Top+0.5*at.Height()))
		if !near(disc, color.NRGBA{R: 200, G: 20, B: 30, A: 255}) || !near(ground, color.NRGBA{R: 255, G: 255, B: 255, A: 255}) {
			t.Errorf("%s: the disc is %v on %v", kind, disc, ground)
		}
	}
}

// The line of credit stands on every kind of page.
func TestCreditsEverywhere(t *testing.T) {
	const credit = "Credits: outlines by the Surveyors of Merrow"
	a := must(render.NewAtlas(merrow.territory(), 900))
	bands, values := merrow.bandMap(6), render.ValueMap{Caption: merrow.bandMap(1).Caption}
	bands.Source, values.Source = credit, credit
	grey := bands
	grey.Grey = true
	week := merrow.frame(2, 6)
	week.Source = credit
	_, h := handoutOf(merrow, 9)
	h.Map.Source = credit
	pages := map[string]*press.Page{
		"band map": must(a.Bands(bands)).Page, "grey map": must(a.Bands(grey)).Page, "narrow map": must(must(render.NewAtlas(merrow.territory(), 480)).Bands(bands)).Page,
		"value map": must(a.Values(values)).Page, "week": a.Status(week).Page, "sheet": a.Sheet(bands.Caption, merrow.frames(6)), "handout": must(a.Handout(h)).Page,
		"region handout": must(a.RegionSheet(regionSheetOf(bands))).Page,
	}
	for name, page := range pages {
		line := ""
		for _, b := range page.Layout.Boxes {
			if b.Kind == press.FooterText {
				line += b.Text + " "
			}
		}
		if !strings.Contains(line, credit) {
			t.Errorf("%s has no credits: %q", name, line)
		}
		if svg := string(svgOf(t, page)); !strings.Contains(svg, "Credits:") {
			t.Errorf("the SVG of %s has no credits", name)
		}
	}
	oracle.Need(t, "pdftotext")
	for name, page := range pages {
		if words := oracle.Run(t, nil, "pdftotext", written(t, "page.pdf", pdfOf(t, page, press.A4)), "-"); !bytes.Contains(words, []byte("Credits: outlines by")) {
			t.Errorf("the PDF of %s has no credits", name)
		}
	}
}
